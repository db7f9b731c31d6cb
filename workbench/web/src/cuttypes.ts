// Made from the Go types by go test ./workbench -update. Do not edit.

import type { SheetShown } from "./types"

export interface CuttingReply {
  pieces: Pieces
  sheets: SheetShown[]
  currency: string
  shops: ShopShown[]
  onHand: string[]
  sums: string[]
}

export interface CuttingRequest {
  name: string
  text: string
  as: string
}

export interface ItemShown {
  name: string
  pack: string
  buy: string
  cost: string
  says: string[]
}

export interface Pieces {
  units: string
  panes: PiecesPane[]
  lengths: PiecesLength[]
  panels: PiecesPanel[]
  sheets: PiecesSheet[]
  bars: PiecesBar[]
  ordered: PiecesOrder[]
  assumed: string[]
}

export interface PiecesBar {
  what: string
  stock: string
  onHand: boolean
  line: number
  cuts: PiecesRect[]
  offcut: number
  proven: boolean
  gap: number
}

export interface PiecesLength {
  name: string
  of: string
  field: string
  line: number
  count: number
  cut: number
  text: string
  rule: string
}

export interface PiecesOrder {
  name: string
  why: string
}

export interface PiecesPane {
  name: string
  kind: string
  at: string
  field: string
  line: number
  count: number
  width: PiecesSide
  height: PiecesSide
  thickness: number
  material: string
  mass: number
  edges: string
  had: boolean
  text: string
}

export interface PiecesPanel {
  name: string
  line: number
  cols: number
  rows: number
  pitch: number
  firstCol: number
  firstRow: number
  notched: number
  ends?: string
}

export interface PiecesRect {
  name: string
  x: number
  y: number
  w: number
  h: number
}

export interface PiecesSheet {
  what: string
  stock: string
  onHand: boolean
  line: number
  pieces: PiecesRect[]
  offcuts: PiecesRect[]
  proven: boolean
  gap: number
}

export interface PiecesSide {
  field: string
  typed: number
  exact: number
  cut: number
  text: string
  rule: string
  round: string
  fit: string
  by: number
}

export interface ShopShown {
  shop: string
  items: ItemShown[]
}
