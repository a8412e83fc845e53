// Runs a core under node as the page's worker does: node core.cjs wasm_exec.js
// core.wasm, with [{name, text, draw}] on stdin. Prints what went wrong, a line
// each, and at last the size of the core's memory.
const fs = require("fs");
globalThis.crypto ??= require("crypto").webcrypto;
const [, , glue, core] = process.argv;
require(glue);

async function main() {
  const go = new Go();
  go.exit = (code) => console.log(`the core ended with ${code}`);
  const { instance } = await WebAssembly.instantiate(fs.readFileSync(core), go.importObject);
  void go.run(instance);
  const calls = globalThis.loomwright;
  for (const { name, text, draw } of JSON.parse(fs.readFileSync(0, "utf8"))) {
    const ask = (call, more) => {
      const answer = JSON.parse(calls[call](JSON.stringify({ name, text, ...more })));
      if (answer.error) console.log(`${name}: ${call}: ${answer.error}`);
      return answer;
    };
    try {
      const loom = ask("open");
      ask("rows");
      ask("wishes");
      for (const row of loom.settings) ask("trace", { with: row.name, band: true });
      ask("forget");
      if (draw && !ask("sketch").svg.startsWith("<svg")) console.log(`${name}: not drawn`);
    } catch (fault) {
      console.log(`${name}: ${fault.stack}`);
    }
  }
  console.log(`memory ${instance.exports.mem.buffer.byteLength}`);
  process.exit(0);
}
void main();
