import{g as e}from"./chunk-RLH3V6A7.js";function o(t){return e("p",{class:"wait",children:"Not here yet."})}export{o as default};
