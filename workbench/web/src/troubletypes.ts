// Made from the Go types by go test ./workbench -update. Do not edit.

import type { LostPart } from "./plantypes"

export interface Change {
  id: string
  before?: number
  now: number
  share: number
  text: string
}

export interface Diagnosis {
  design: string
  used: number
  suspects: Suspect[]
  chance: number
  pairs?: SuspectPair[]
  changes: Change[]
  next?: NextReading
}

export interface LogChoice {
  value: string
  label: string
  example: string
}

export interface MeasureShown {
  id: string
  value: string
  how: string
  takes: string
  tells: string[]
}

export interface NextReading {
  id: string
  minutes: number
  apart: number
  first: number
  second: number
  split: [string, string]
  texts: [string, string]
}

export interface NoteReply {
  noted: string
  fault: string
  do: string
}

export interface NoteRequest {
  name: string
  what: string
  value: string
  note: string
}

export interface Suspect {
  id: string
  what: string
  do: string
  probability: number
  flow: number
}

export interface SuspectPair {
  ids: [string, string]
  probability: number
  chance: number
  flow: number
}

export interface SuspectShown {
  id: string
  share: string
  parts: LostPart[]
}

export interface SuspectsShown {
  share: string
  what: string
  do: string
  parts: LostPart[]
}

export interface TroubleReply {
  log: string
  says: string[]
  found?: Diagnosis
  suspects: SuspectShown[]
  worth: number
  together: SuspectsShown[]
  pairing?: string
  measure?: MeasureShown
  unused: string[]
  choices: LogChoice[]
}

export interface TroubleRequest {
  name: string
  text: string
  since: string
}
