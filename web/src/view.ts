// The base of every view: renders into the page itself, again on each change.
import { LitElement } from "lit";
import { store, type State } from "./store.js";

export class View extends LitElement {
  private readonly changed = () => this.requestUpdate();

  protected get state(): State {
    return store.state;
  }
  protected createRenderRoot(): HTMLElement {
    return this;
  }
  connectedCallback(): void {
    super.connectedCallback();
    store.addEventListener("change", this.changed);
  }
  disconnectedCallback(): void {
    store.removeEventListener("change", this.changed);
    super.disconnectedCallback();
  }
}

export function define(name: string, view: CustomElementConstructor): void {
  if (!customElements.get(name)) customElements.define(name, view);
}
