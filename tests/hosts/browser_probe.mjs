// Boots Pyodide without a network, unpacks local wheels, runs a Python file and prints the value of its last line.
// node browser_probe.mjs PYODIDE_FOLDER SCRIPT.py GIVEN.json WHEEL...   (a text file becomes the Python variable GIVEN)

import { existsSync, readFileSync, renameSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";

const [folder, script, given, ...wheels] = process.argv.slice(2);
let asked = 0;
globalThis.fetch = () => {
  asked += 1;
  throw new Error("the network is cut");
};

// Starts Python. Its own library is compiled at each start, which takes most of the time of a short run: what stands in
// memory after the first start is kept beside the package, and later runs begin with that.
async function started() {
  const { loadPyodide, version } = await import(pathToFileURL(join(folder, "pyodide.mjs")).href);
  const kept = join(folder, `started-${version}.memory`);
  if (existsSync(kept)) return loadPyodide({ indexURL: folder, _loadSnapshot: readFileSync(kept) });
  const pyodide = await loadPyodide({ indexURL: folder, _makeSnapshot: true });
  const unfinished = `${kept}.${process.pid}`; // two may start at the same time
  writeFileSync(unfinished, pyodide.makeMemorySnapshot());
  renameSync(unfinished, kept);
  return loadPyodide({ indexURL: folder, _loadSnapshot: readFileSync(kept) });
}

async function main() {
  const pyodide = await started();
  for (const wheel of wheels) pyodide.unpackArchive(new Uint8Array(readFileSync(wheel)), "wheel");
  pyodide.globals.set("GIVEN", readFileSync(given, "utf8"));
  const answer = await pyodide.runPythonAsync(readFileSync(script, "utf8"));
  if (asked) throw new Error(`something asked for the network ${asked} times`);
  process.stdout.write(answer);
}

main().catch((error) => {
  process.stderr.write(`${error.message}\n`);
  process.exitCode = 1;
});
