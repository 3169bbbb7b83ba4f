import { InputError } from '../source/diagnostic.ts';

/** Whether a file or folder of this name is passed over where a folder is looked through: it is hidden, or holds nothing of one's own. */
export function isPassedOver(name: string): boolean {
  return name.startsWith('.') || name === 'node_modules';
}

/** Whether a file of this name may be a project file. */
export function isProjectName(name: string): boolean {
  return /\.ya?ml$/i.test(name);
}

/**
 * Whether a file that was found, not named, is meant as a project file: it has the key that every one has, even where something else in
 * it is wrong. An empty file is none.
 *
 * @param text  reads it
 * Errors: InputError where it cannot be read, since it may be one.
 */
export function isProjectFile(text: () => string): boolean {
  try {
    return /^\{?\s*["']?tankproof["']?\s*:/m.test(text());
  } catch (error) {
    if (error instanceof InputError && error.problems.every(({ id }) => id === 'empty-file')) return false;
    throw error;
  }
}
