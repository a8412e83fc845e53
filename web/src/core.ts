// The core in workers: a desk each for edits, for drawings and for searches, so
// that none waits for another. Calls with a key replace the one of that key
// that still waits: only the latest turn of a knob is worked out.
import type { Ask, Failure } from "./types.gen.js";

export type Role = "edit" | "draw" | "search" | "paper";

interface Waiting {
  call: string;
  ask: Partial<Ask>;
  key?: string;
  done: (answer: unknown) => void;
  told?: (progress: unknown) => void;
}

let known: { call: string; ask: Partial<Ask> } | undefined; // what each core is told before anything else

const modules = new Map<string, Promise<WebAssembly.Module>>();

function moduleOf(file: string): Promise<WebAssembly.Module> {
  let m = modules.get(file);
  if (!m) {
    m = fetch(file).catch(() => {
      throw new Error("a part of this page has to be fetched first, and there is no connection now");
    }).then((r) => {
      if (!r.ok) throw new Error(`${file} cannot be fetched (${r.status})`);
      return WebAssembly.compileStreaming(r);
    });
    m.catch(() => modules.delete(file));
    modules.set(file, m);
  }
  return m;
}

class Desk {
  private worker?: Worker;
  private queue: Waiting[] = [];
  private running?: Waiting;
  private id = 0;
  private bytes = 0; // of the core's memory, which never shrinks

  constructor(private readonly role: string, private readonly file: string) {}

  ask(call: string, ask: Partial<Ask>, key?: string, told?: (progress: unknown) => void): Promise<unknown> {
    return new Promise((done) => {
      if (key) {
        for (const w of this.queue.filter((w) => w.key === key)) w.done(undefined);
        this.queue = this.queue.filter((w) => w.key !== key);
      }
      this.queue.push({ call, ask, key, done, told });
      void this.next();
    });
  }

  // stop ends the worker in whatever it does; what waits is answered by a new one.
  stop(): void {
    this.worker?.terminate();
    this.worker = undefined;
    this.running?.done(undefined);
    this.running = undefined;
    void this.next();
  }

  private async next(): Promise<void> {
    if (this.running || this.queue.length === 0) return;
    const now = (this.running = this.queue.shift()!);
    try {
      if (!this.worker) await this.start();
    } catch (fault) {
      this.answered({ error: `This cannot be done yet: ${fault instanceof Error ? fault.message : fault}.` });
      return;
    }
    if (this.running !== now) return; // stopped meanwhile
    this.worker!.postMessage({ id: ++this.id, call: now.call, ask: { name: "", text: "", ...now.ask } });
  }

  private async start(): Promise<void> {
    const core = await moduleOf(this.file);
    if (this.worker) return;
    const w = new Worker(new URL("worker.js", document.baseURI), { type: "module" });
    w.onmessage = (e) => {
      if (e.data.id !== this.id) return;
      if (e.data.told) {
        this.running?.told?.(e.data.told);
        return;
      }
      if (e.data.dead) {
        w.terminate();
        this.worker = undefined;
      }
      if (e.data.bytes > this.bytes) {
        this.bytes = e.data.bytes;
        performance.mark("memory of the core", { detail: { role: this.role, bytes: this.bytes } });
      }
      this.answered(e.data.answer);
    };
    w.onerror = () => {
      w.terminate();
      this.worker = undefined;
      this.answered({ error: "The core stopped and begins anew; what you wrote is kept." });
    };
    w.postMessage({ core });
    this.worker = w;
    this.tell();
  }

  /** tell says what a core has to know first; nobody waits for the answer. */
  tell(): void {
    if (known) this.worker?.postMessage({ id: 0, call: known.call, ask: { name: "", text: "", ...known.ask } });
  }

  private answered(answer: unknown): void {
    const was = this.running;
    this.running = undefined;
    was?.done(answer);
    void this.next();
  }
}

const desks: Record<Role, Desk> = {
  edit: new Desk("edit", "core.wasm"),
  draw: new Desk("draw", "core.wasm"),
  search: new Desk("search", "paper.wasm"),
  paper: new Desk("paper", "paper.wasm"),
};

/** ask answers a call, or undefined where a later one took its place. */
export function ask<T>(role: Role, call: string, body: Partial<Ask>, key?: string, told?: (progress: unknown) => void): Promise<T | Failure | undefined> {
  return desks[role].ask(call, body, key, told) as Promise<T | Failure | undefined>;
}

/** tellAll says something to every core, now or when it begins. */
export function tellAll(call: string, ask: Partial<Ask>): void {
  known = { call, ask };
  for (const d of Object.values(desks)) d.tell();
}

export function stop(role: Role): void {
  desks[role].stop();
}

export function failed<T>(answer: T | Failure | undefined): answer is Failure {
  return !!answer && typeof answer === "object" && "error" in answer;
}
