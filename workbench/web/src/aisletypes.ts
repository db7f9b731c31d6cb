// Made from the Go types by go test ./workbench -update. Do not edit.

import type { Answer, Edit, Problem, Verdict } from "./types"

export interface AisleReply {
  rows: AisleRow[]
}

export interface AisleRequest {
  name: string
  text: string
  pumps: PumpSeen[]
  piece: string
  parts: string[]
}

export interface AisleRow {
  name: string
  problem?: Problem
  verdict: Verdict
  answers: Answer[]
  edits: Edit[]
}

export interface PumpSeen {
  name: string
  flow: string
  head: string
}
