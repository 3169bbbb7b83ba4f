/** Whether a folder of this name is not looked into. */
export function isPassedOver(name: string): boolean {
  return name.startsWith('.') || name === 'node_modules';
}

/** Whether a file of this name may be a project file. */
export function isProjectName(name: string): boolean {
  return /\.ya?ml$/i.test(name);
}

/** Whether a text is meant as a project file: it has the key that every one has, even where something else in it is wrong. */
export function isProjectText(text: string): boolean {
  return /^\uFEFF?\{?\s*["']?tankproof["']?\s*:/m.test(text);
}
