// Made from the Go types by go test ./workbench -update. Do not edit.

import type { Edit } from "./types"

export interface LostPart {
  kind: string
  name: string
  field: string
}

export interface PlanReply {
  days: number
  ticks: Tick[]
  deadline?: number
  steps: PlanStep[]
  next: string[]
  says: string[]
  taken: string[]
}

export interface PlanRequest {
  name: string
  text: string
  today: string
}

export interface PlanStep {
  id: string
  say: string
  when: string
  pieces: [number, number][]
  end: number
  finish: number
  slack: number
  sets: boolean
  comes: boolean
  done: boolean
  under: boolean
  tells: Told[]
  closes: string
  lost: LostPart[]
  mark: Edit[]
  before: string[]
}

export interface Tick {
  at: number
  name: string
}

export interface Told {
  about: string
  say: string
}
