import{b as a,c as b}from"./chunk-QUSRCTCG.js";import"./chunk-I2K2PCT6.js";import"./chunk-O746KGKS.js";export{b as axes,a as default};
