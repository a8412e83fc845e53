// One core in one worker. It answers calls in order; the page ends the worker
// to cancel one.
declare class Go {
  importObject: WebAssembly.Imports;
  run(i: WebAssembly.Instance): Promise<void>;
}
type Calls = Record<string, (ask: string) => string | undefined>;
interface Call { id: number; call: string; ask: unknown }

let memory: WebAssembly.Memory | undefined;
let ready: Promise<Calls> | undefined;

async function start(core: WebAssembly.Module): Promise<Calls> {
  const go = new Go();
  const instance = await WebAssembly.instantiate(core, go.importObject);
  void go.run(instance);
  memory = instance.exports.mem as WebAssembly.Memory;
  return (globalThis as unknown as { loomwright: Calls }).loomwright;
}

self.onmessage = async (e: MessageEvent<{ core?: WebAssembly.Module } & Partial<Call>>) => {
  if (e.data.core) {
    ready = start(e.data.core);
    return;
  }
  const { id, call, ask } = e.data;
  (globalThis as unknown as { loomwrightTold: (text: string) => void }).loomwrightTold = (text) => self.postMessage({ id, told: JSON.parse(text) });
  try {
    const answer = (await ready!)[call!](JSON.stringify(ask));
    if (answer === undefined) throw new Error("it ended"); // out of memory, or out of stack
    self.postMessage({ id, answer: JSON.parse(answer), bytes: memory!.buffer.byteLength });
  } catch (fault) {
    self.postMessage({ id, answer: { error: `The core stopped in the middle of this and begins anew; what you wrote is kept. (${fault})` }, dead: true });
  }
};
