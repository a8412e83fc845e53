// The page begins here.
import "./app.js";
import { look, openLoom, readShelf, redo, save, undo, work } from "./act.js";
import { ask, failed } from "./core.js";
import { keptHabit, wear } from "./habit.js";
import { dropLeft, findShelf, leftDraft, ownDraft, type Draft } from "./keep.js";
import { beside, unpack } from "./link.js";
import { store } from "./store.js";
import words from "../../internal/sheet/words-1.txt";
import type { Begin } from "./types.gen.js";

async function begin(): Promise<void> {
  wear(keptHabit());
  const [shelf, answer] = await Promise.all([findShelf(), ask<Begin>("edit", "begin", {})]);
  store.set({ shelf });
  if (!answer || failed(answer)) {
    store.set({ trouble: answer ? answer.error : "the core did not start", mode: "open" });
    return;
  }
  store.set({ begin: answer });
  await readShelf();
  const own = ownDraft();
  const nav = performance.getEntriesByType("navigation")[0] as PerformanceNavigationTiming | undefined;
  if (own && nav?.type === "reload") {
    goOn(own);
    return;
  }
  if (await fromAddress(answer)) return;
  const left = own ? undefined : leftDraft();
  if (left) dropLeft(left);
  if (own ?? left) goOn((own ?? left)!);
}

/** goOn takes up a loom where it was left. */
function goOn(d: Draft): void {
  openLoom(d.name, { text: d.text, mark: d.mark }, d.saved);
  if (d.mode === "solder" || d.mode === "meter") work(d.mode);
}

/** fromAddress opens what the address asks for: a loom in a link, an example, a file of the shelf. */
async function fromAddress(b: Begin): Promise<boolean> {
  const asked = new URLSearchParams(location.hash.slice(1));
  const [loom, example, file] = [asked.get("loom"), asked.get("example"), asked.get("file")];
  try {
    const packed = asked.get("loom1");
    if (packed !== null) openLoom("from-a-link.yaml", { text: await unpack(packed, words), mark: "" }, "");
    else if (loom !== null) openLoom("from-a-link.yaml", { text: await unpack(loom), mark: "" }, "");
    else if (example !== null) {
      const e = b.examples?.find((e) => e.name === example);
      if (!e) return false;
      openLoom(e.name, { text: e.text, mark: "" });
    } else if (file !== null) {
      const shelf = store.state.shelf;
      const kept = await shelf?.read(file);
      if (!kept && shelf?.kind === "folder") throw new Error(`there is no ${file} in the folder`);
      openLoom(file, kept ?? { text: await beside(file), mark: "" }, kept?.text ?? "");
    } else return false;
  } catch (fault) {
    store.set({ trouble: fault instanceof Error ? fault.message : String(fault), mode: "open" });
    return true;
  }
  if (asked.get("mode") === "solder") {
    store.set({ step: Number(asked.get("step")) || 0 });
    work("solder");
  }
  return true;
}

document.addEventListener("keydown", (e) => {
  if (!(e.ctrlKey || e.metaKey) || e.altKey) return;
  const inText = e.target instanceof HTMLTextAreaElement || e.target instanceof HTMLInputElement;
  const key = e.key.toLowerCase();
  if (key === "s") void save();
  else if (key === "z" && !inText) (e.shiftKey ? redo : undo)();
  else if (key === "y" && !inText) redo();
  else return;
  e.preventDefault();
});
window.addEventListener("hashchange", () => store.state.begin && void fromAddress(store.state.begin));
window.addEventListener("storage", () => void look());
document.addEventListener("visibilitychange", () => document.visibilityState === "visible" && void look().then(readShelf));
setInterval(() => document.visibilityState === "visible" && store.state.shelf?.kind === "folder" && void look(), 3000);

async function keepOffline(): Promise<void> {
  if (!("serviceWorker" in navigator)) return;
  const r = await navigator.serviceWorker.register("offline.js");
  const offer = () => {
    const waiting = r.waiting;
    if (waiting && navigator.serviceWorker.controller) {
      store.set({ newer: () => {
        navigator.serviceWorker.addEventListener("controllerchange", () => location.reload(), { once: true });
        waiting.postMessage("now");
      } });
    }
  };
  offer();
  if (navigator.serviceWorker.controller) setTimeout(keepRest, 5000);
  r.addEventListener("updatefound", () => r.installing?.addEventListener("statechange", offer));
}

/** keepRest keeps the second core too, from the second visit on: searches and paper then work offline as well. */
async function keepRest(): Promise<void> {
  const thrifty = (navigator as { connection?: { saveData?: boolean } }).connection?.saveData;
  if (!thrifty && !(await caches.match("paper.wasm"))) await fetch("paper.wasm").catch(() => undefined);
}

void begin().then(() => performance.mark("usable")).then(keepOffline).catch(() => undefined);
