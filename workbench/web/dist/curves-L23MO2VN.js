import{b as a,c as b}from"./chunk-X2XPNMTY.js";import"./chunk-I2K2PCT6.js";import"./chunk-C6NCZ4UV.js";export{b as axes,a as default};
