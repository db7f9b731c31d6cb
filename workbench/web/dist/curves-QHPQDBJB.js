import{f as a,g as b}from"./chunk-QHB572GH.js";import"./chunk-H2V3AVFK.js";import"./chunk-RLH3V6A7.js";export{b as axes,a as default};
