/** What the system says when a file or folder cannot be used, in words. */
const WORDS: Readonly<Record<string, string>> = {
  ENOENT: "no such file or folder",
  EACCES: "one that may not be used",
  EPERM: "one that may not be used",
  EROFS: "a disk that cannot be written",
  EISDIR: "a folder",
  ENOTDIR: "a file where a folder was meant",
  EEXIST: "a file where a folder was meant",
  ENOSPC: "a full disk",
  ENAMETOOLONG: "a name that is too long",
};

/**
 * What was found in place of a file or folder, for the end of a sentence.
 * @throws whatever it is given, when that is no complaint of the file system: then it is our own mistake.
 */
export function troubleWith(error: unknown): string {
  const code = error instanceof Error && "code" in error ? error.code : null;
  if (typeof code !== "string" || !/^E[A-Z]+$/.test(code)) throw error;
  return WORDS[code] ?? code;
}
