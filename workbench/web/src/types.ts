// Made from the Go types by go test ./workbench -update. Do not edit.

export interface Answer {
  id: string
  question: string
  verdict: Verdict
  say: string
  figures: Figure[]
  limit: Limit
  margin?: string
  limiting?: string
  limitingLine?: number
  matters?: Matter[]
  fixes?: Fix[]
  cautions?: string[]
}

export interface AsBuilt {
  field: string
  planned: string
  measured: string
  line: number
}

export interface Assumed {
  what: string
  value: string
  why: string
  field: string
}

export interface Break {
  id: string
  question: string
  verdict: Verdict
}

export interface ChangeEvent {
  name: string
  revision: string
}

export interface ComputeRequest {
  name: string
  text: string
  fixes: boolean
  curves: boolean
  measured: boolean
}

export interface Course {
  id: string
  ended: number
  why?: string
  spilled: number
  spills: Spill[]
  events: Event[]
  stores: Store[]
  time: number[]
}

export interface CourseReply {
  course: Course
  levels: Levels[]
}

export interface CourseRequest {
  name: string
  text: string
  id: string
}

export interface DesignList {
  names: string[]
  folder: boolean
}

export interface Doubt {
  id: string
  what: string
  low: number
  likely: number
  high: number
  unit: string
  text: string
  why: string
  settle?: string
  line?: number
}

export interface DraftRequest {
  text: string
  base: string
}

export interface DrainWater {
  name: string
  flow: number
  limit: string
  capacity: number
}

export interface DrawingsReply {
  sheets: SheetShown[]
  letter: boolean
}

export interface DrawingsRequest {
  name: string
  text: string
  letter: boolean
  pdf: boolean
}

export interface Edit {
  path: string
  to: string
  kind?: string
  on?: string
}

export interface Event {
  at: number
  what: string
}

export interface FaultRow {
  id: string
  question: string
}

export interface Faults {
  name: string
  file: string
  findings: Finding[]
  units: string
  verdict: Verdict
  answers: Answer[]
  fillLine: FillLine
  courses: Course[]
  pairs: Pair[]
}

export interface FaultsReply {
  faults: FaultRow[]
}

export interface Figure {
  name: string
  low: number
  likely: number
  high: number
  unit: string
  text: string
  bound?: number
  least?: boolean
  words?: boolean
}

export interface FillLine {
  lowest: number
  highest: number
  exists: boolean
  points: Reserve[]
}

export interface Finding {
  place: Place
  severity: Severity
  field: string
  what: string
  do: string
  excerpt: string
}

export interface Fix {
  do: string
  change?: string
  edits?: Edit[]
  cost: string
  before: string
  after: string
  verdict: Verdict
  breaks?: Break[]
}

export interface FormField {
  path: string
  key: string
  text: string
  line: number
  what: string
  about: string
  words?: string
}

export interface Index {
  first: number
  total: number
  error: number
}

export interface Levels {
  name: string
  level: number[]
}

export interface Limit {
  text?: string
  source?: string
  mark?: string
}

export interface Matter {
  what: string
  range: string
  effect: string
  swing: number
  why: string
  settle?: string
  line?: number
}

export interface Measure {
  what: string
  settle: string
  share: number
  answers: string[]
}

export interface Outcome {
  revision: string
  took: number
  findings: Finding[]
  form: FormField[]
  fault?: string
  report?: Report
  water?: Water
  curves: boolean
  rough: boolean
  pump?: PumpCurves
  scene?: Scene
  readings: number
  measured: boolean
}

export interface OutletsWater {
  name: string
  at: number[]
  flow: number[]
  low: number[]
  high: number[]
  total: number
}

export interface Pair {
  what: string
  first: string
  second: string
  spilled: number
}

export interface PartRow {
  name: string
  kind: string
  mark: string
  note?: string
}

export interface PartsReply {
  parts: PartRow[]
}

export interface Place {
  file: string
  line: number
  column: number
  width: number
}

export interface Problem {
  what: string
  do: string
}

export interface Progress {
  done: number
  of: number
  faults?: Faults
  weighed?: Result
  sought?: Sought
  file?: string
  fault?: string
}

export interface PumpCurves {
  flow: number[]
  pump: [number[], number[], number[]]
  system: [number[], number[], number[]]
  atFlow: number
  atHead: number
  target: number
}

export interface Report {
  name: string
  file: string
  findings: Finding[]
  units: string
  verdict: Verdict
  answers: Answer[]
  assumed: Assumed[]
  doubts: Doubt[]
  asBuilt: AsBuilt[]
}

export interface Reserve {
  level: number
  volume: number
  lasts: number
  spill: number
  free: number
}

export interface Result {
  draws: number
  seed: number
  answers: WeighAnswer[]
  open: string[]
  first?: Measure
}

export interface RunWater {
  name: string
  flow: number
  speed: number
  shut: boolean
}

export interface SaveRequest {
  base: string
  text: string
}

export interface Scene {
  inside: SceneBox
  outside: SceneBox
  floor: number
  parts: ScenePart[]
  missing: string[]
}

export interface SceneBox {
  min: [number, number, number]
  max: [number, number, number]
}

export interface ScenePart {
  kind: string
  name: string
  field: string
  line: number
  at?: string
  box?: SceneBox
  points?: [number, number, number][]
  radius?: number
  corners?: [number, number, number][]
  assumed?: string[]
}

export interface SeekRequest {
  name: string
  text: string
  open: string[]
  for: string
  front: boolean
}

export interface SetReply {
  text: string
}

export interface SetRequest {
  text: string
  edits: Edit[]
}

export interface Share {
  share: number
  error: number
}

export interface SheetShown {
  title: string
  svg: string
}

export interface Sought {
  currency: string
  designs: number
  decided: number
  proven: boolean
  let: number
  out: number
  because: number
  best?: SoughtDesign
  front?: SoughtDesign[]
}

export interface SoughtDesign {
  choices: string[]
  cost: number
  priced: boolean
  memory: boolean
  power: number
  buys: number
  margin: number
  near: string
  noise: number
  edits: Edit[]
  answers: SoughtVerdict[]
}

export interface SoughtVerdict {
  id: string
  verdict: Verdict
}

export interface Spill {
  from: string
  volume: number
}

export interface Store {
  name: string
  begin: number
  end: number
  volume: number[]
}

export interface Stored {
  name: string
  text: string
  revision: string
  readOnly: boolean
  draft?: string
  draftBase?: string
}

export interface TextRequest {
  name: string
  text: string
}

export interface Water {
  pool: number
  poolFloor: number
  damTop: number
  sump: number
  sumpFloor: number
  sumpRim: number
  chambers: string[]
  spills: boolean
  runs: RunWater[]
  drains: DrainWater[]
  manifolds: OutletsWater[]
}

export interface WeighAnswer {
  id: string
  question: string
  holds: Share
  fails: Share
  figure?: string
  unit?: string
  low: number
  median: number
  high: number
  doubts?: WeighDoubt[]
}

export interface WeighDoubt {
  what: string
  settle?: string
  index: Index
}

export type Severity = "note" | "warning" | "error"

export type Verdict = "holds" | "tight" | "not known yet" | "fails"
