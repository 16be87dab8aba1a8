// @ts-check
import "./node-version.mjs";
import { BUILT, buildIfChanged } from "./build.mjs";
import { installMissingPackages } from "./packages.mjs";
import { serve } from "./serve.mjs";

/* npm start: from a fresh clone to a page, in one command. */

const PORT = 4173;

try {
  await installMissingPackages();
  const built = await buildIfChanged();
  if (built && built.code !== 0) throw new Error(`${built.output}\nThe app could not be built.`);
  if (built) console.log(`Built in ${built.seconds.toFixed(1)} s.`);
  const wanted = Number(process.env.PORT) || PORT;
  const { port, address, stop } = await serve({ folder: BUILT, port: wanted });
  if (port !== wanted) console.log(`Port ${wanted} is taken, so this is ${port}.`);
  console.log(`Ninefold is at ${address}   (Ctrl-C stops it)`);
  for (const signal of /** @type {const} */ (["SIGINT", "SIGTERM", "SIGHUP"])) {
    process.on(signal, () => stop().then(() => process.exit(0)));
  }
} catch (error) {
  console.error(error instanceof Error ? error.message : error);
  process.exitCode = 1;
}
