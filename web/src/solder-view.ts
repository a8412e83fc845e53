// Solder mode: one step a screen, a close-up, half-screen buttons for dirty
// hands. Where one is survives a reload; the screen is kept awake.
import { html, nothing } from "lit";
import { Canvas } from "./sketch.js";
import { store } from "./store.js";
import { define, View } from "./view.js";

const key = (name: string) => "loomwright/steps/" + name;

function ticked(name: string): Set<number> {
  try {
    const list = JSON.parse(localStorage.getItem(key(name)) ?? "[]");
    return new Set(Array.isArray(list) ? list.filter((n) => typeof n === "number") : []);
  } catch {
    return new Set();
  }
}

class Solder extends View {
  private canvas?: Canvas;
  private drawn?: unknown;
  private awake?: WakeLockSentinel;
  private readonly wake = () => void this.keepAwake();

  connectedCallback(): void {
    super.connectedCallback();
    document.addEventListener("visibilitychange", this.wake);
    void this.keepAwake();
    const { name, step } = store.state;
    if (!step) {
      const done = ticked(name);
      let next = 0;
      while (done.has(next + 1)) next++;
      store.set({ step: next });
    }
  }
  disconnectedCallback(): void {
    document.removeEventListener("visibilitychange", this.wake);
    void this.awake?.release();
    super.disconnectedCallback();
  }
  private async keepAwake(): Promise<void> {
    try {
      if (document.visibilityState === "visible") this.awake = await navigator.wakeLock?.request("screen");
    } catch {
      // refused: the screen dims as usual
    }
  }

  render() {
    const s = this.state;
    const steps = s.loom?.plan.steps ?? [];
    if (steps.length === 0) return html`<p class="lone">${s.loom ? "This loom has no wire yet: there is nothing to solder." : "Proving the loom …"}</p>`;
    const i = Math.min(s.step, steps.length);
    if (i === steps.length) return this.end();
    const step = steps[i];
    const stage = s.loom!.plan.stages?.[step.stage];
    const done = ticked(s.name).has(step.number);
    return html`<div class="solder" @keydown=${this.keys} tabindex="-1">
      <p class="place">Step ${step.number} of ${steps.length}, ${step.where}${stage ? html` · ${stage.name}` : nothing} ${done ? html`<strong>✓ done</strong>` : nothing}</p>
      <progress max=${steps.length} value=${i} aria-label="Steps done"></progress>
      <h1 class="order">${step.do}</h1>
      <div class="paper close"></div>
      ${(step.notes ?? []).map((n) => html`<p class="note">Mind: ${n}</p>`)}
      ${step.good ? html`<p class="note good">A good joint: ${step.good}</p>` : nothing}
      ${i === 0 ? html`<lw-cautions></lw-cautions>` : nothing}
      <div class="halves">
        <button @click=${() => this.go(-1)} ?disabled=${i === 0}>Back</button>
        <button class="done" @click=${() => this.go(1)}>Done, next</button>
      </div>
    </div>`;
  }

  private end() {
    return html`<div class="solder"><h1>Every step is done</h1>
      <p>Before the strings go on: take the readings in <button @click=${() => store.set({ mode: "meter" })}>meter mode</button> and look at each joint again.</p>
      <lw-cautions></lw-cautions>
      <div class="halves"><button @click=${() => this.go(-1)}>Back</button><button @click=${this.again}>Begin again</button></div></div>`;
  }

  protected updated(): void {
    const s = this.state;
    const paper = this.querySelector<HTMLElement>(".paper");
    const step = s.loom?.plan.steps?.[s.step];
    if (!paper || !step || !s.sketch?.svg) return;
    if (this.drawn !== s.sketch || this.canvas?.host !== paper) {
      this.drawn = s.sketch;
      this.canvas = new Canvas(paper, s.sketch.svg, s.sketch.spots ?? [], true);
    }
    this.canvas.svg.removeAttribute("aria-labelledby");
    this.canvas.svg.setAttribute("aria-label", step.do);
    this.canvas.mark({ live: new Set([step.run]), run: -1, armed: -1, focus: -1 });
    this.canvas.closeUp(step.run);
  }

  private go(by: number): void {
    const { name, step, loom } = store.state;
    const now = loom?.plan.steps?.[step];
    const done = ticked(name);
    if (by > 0 && now) done.add(now.number);
    try {
      localStorage.setItem(key(name), JSON.stringify([...done]));
    } catch {
      // storage is full: the steps still go on
    }
    store.set({ step: Math.max(0, step + by) });
    this.querySelector<HTMLElement>(".order")?.scrollIntoView({ block: "start" });
  }

  private again(): void {
    localStorage.removeItem(key(store.state.name));
    store.set({ step: 0 });
  }

  private keys(e: KeyboardEvent): void {
    if (e.key === "ArrowRight" || e.key === "PageDown") this.go(1);
    else if (e.key === "ArrowLeft" || e.key === "PageUp") this.go(-1);
  }
}

define("lw-solder", Solder);
