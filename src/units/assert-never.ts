/**
 * Closes a switch over a tagged union: the compiler refuses it while a case is missing.
 * @throws RangeError always; reaching it is our mistake.
 */
export function assertNever(value: never): never {
  throw new RangeError(`A case nobody thought of: ${JSON.stringify(value)}`);
}
