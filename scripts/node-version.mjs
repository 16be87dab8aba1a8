// @ts-check
/* Imported first by every script, so that an old Node gets a sentence and not a stack trace. */
const [major = 0, minor = 0] = process.versions.node.split(".").map(Number);
if (major < 20 || (major === 20 && minor < 19)) {
  console.error(`Ninefold needs Node 20.19 or newer; this is ${process.versions.node}.`);
  process.exit(1);
}
