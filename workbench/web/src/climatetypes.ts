// Made from the Go types by go test ./workbench -update. Do not edit.

export interface ClimateReply {
  seasons: SeasonShown[]
  light?: Painted
  taken: string[]
}

export interface FaceShown {
  name: string
  corner: [number, number, number]
  u: [number, number, number]
  v: [number, number, number]
  across: number
  up: number
  step: number[]
}

export interface Painted {
  title: string
  unit: string
  steps: StepShown[]
  faces: FaceShown[]
  says: string[]
  taken: string[]
}

export interface SeasonShown {
  name: string
  time: number[]
  air: number[]
  water: number[]
  room: number[]
  humidity: number[]
  roomHumidity: number[]
  clear: number[]
  fogged: boolean[]
  fog: [number, number][]
  lit: [number, number][]
  evaporated: number
  changes: number
}

export interface StepShown {
  say: string
  share: number
}
