export*from"@lit/reactive-element";export*from"lit-html";export{LitElement,_$LE}from"./lit-element.js";
