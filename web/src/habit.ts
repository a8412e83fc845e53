// UK or US habit: words, lengths and paper, chosen once and kept. The words
// come from the core, which puts printed sheets in them as well. Names in the
// loom stay as they are.
import { store } from "./store.js";

export type Habit = "uk" | "us";

const key = "loomwright/habit";

export function keptHabit(): Habit {
  const kept = localStorage.getItem(key);
  if (kept === "uk" || kept === "us") return kept;
  return /^en-(US|PR|GU|VI)$/i.test(navigator.language) || navigator.language === "es-US" ? "us" : "uk";
}

export function setHabit(habit: Habit): void {
  localStorage.setItem(key, habit);
  wear(habit);
}

/** wear puts the whole page in a habit. */
export function wear(habit: Habit): void {
  document.documentElement.lang = habit === "us" ? "en-US" : "en-GB";
  store.set({ habit });
}

// A word that stands by itself; what is written as a name (bridge.shield,
// ground-loop, 0.22/7) is none.
const word = /(?<![\w./-])[A-Za-z]+(?![\w/-]|\.\w)/g;
const length = /(?<![\w./-])(\d+(?:\.\d+)?) mm(?![\w²])/g;

/** say puts a text of the core in the habit's words. */
export function say(text: string | undefined): string {
  const { habit, begin, loom } = store.state;
  const words = begin?.words?.[habit];
  if (!text || !words) return text ?? "";
  const out = text.replace(word, (w) => {
    const to = words[w.toLowerCase()];
    if (!to || loom?.parts?.some((p) => p.name === w)) return w;
    return w[0] < "a" ? to[0].toUpperCase() + to.slice(1) : to;
  });
  return habit === "us" ? out.replace(length, (all, mm) => `${all} (${inches(Number(mm))})`) : out;
}

/** mm writes a length the habit's way. */
export const mm = (x: number): string => (store.state.habit === "us" ? inches(x) : `${x} mm`);

const inches = (x: number) => `${(x / 25.4).toFixed(x < 2.5 ? 3 : x < 25 ? 2 : 1)} in`;
