/** A design that is well formed and still cannot be computed; the key path says where. */
export class DesignError extends Error {
  readonly id: string;
  readonly path: string;
  readonly help: string | undefined;
  constructor({ id, path, message, help }: { id: string; path: string; message: string; help?: string }) {
    super(message);
    this.name = 'DesignError';
    this.id = id;
    this.path = path;
    this.help = help;
  }
}
