// Generated from Go by `go test ./web -run TestTypes -update`. Do not edit.

export interface Ask {
  name: string;
  text: string;
  with?: string;
  knobs?: Record<string, number>;
  over?: string;
  band?: boolean;
  from?: string;
  to?: string;
  run?: number;
  part?: string;
  key?: string;
  value?: string;
  kind?: string;
  page?: string;
  front?: boolean;
  marks?: boolean;
  grey?: boolean;
  outside?: boolean;
  state?: DiagnosisState;
  at?: number[];
  plan?: Plan;
  leads?: LeadsState;
  lugs?: LeadsSwitchState;
  notes?: LeadNotes;
  order?: Record<string, string>;
  humCancels?: boolean;
  hanging?: boolean;
  wiresPerLug?: number;
  sounds?: number[];
  base?: string;
  date?: string;
  only?: boolean;
  other?: Reference;
  files?: Record<string, string>;
  habit?: string;
}

export interface Begin {
  starts: Start[] | null;
  examples: Start[] | null;
  words: Record<string, Record<string, string>>;
}

export interface BuildEnd {
  term: number;
  work: string;
  braid?: boolean;
  heat?: number;
}

export interface BuildLoose {
  term: number;
  for: string;
}

export interface BuildPlan {
  steps: BuildStep[] | null;
  stages: BuildStage[] | null;
  loose?: BuildLoose[];
}

export interface BuildStage {
  where: string;
  name: string;
  last: number;
}

export interface BuildStep {
  number: number;
  where: string;
  stage: number;
  run: number;
  finishes?: number;
  ends: BuildEnd[] | null;
  do: string;
  notes: string[] | null;
  good: string;
}

export interface Checkup {
  findings: DiagDiagnostic[] | null;
}

export interface Choice {
  id: string;
  class: string;
  name: string;
  about: string;
  shapes: PartShape[] | null;
  coils: string[] | null;
  ends: string[] | null;
  positions: string[] | null;
  poles: number;
  tracks: number;
}

export interface Choices {
  parts: Choice[] | null;
  codes: CodeChoice[] | null;
  schemes: SchemeChoice[] | null;
}

export interface Circuitry {
  svg: string;
  notes: string[] | null;
}

export interface CodeChoice {
  name: string;
  about: string;
  leads: LeadEnd[] | null;
  fits: string[] | null;
}

export interface Compared {
  title: string;
  settings: string[] | null;
  lines: ComparedLine[] | null;
  curve?: Traced;
  note?: string;
}

export interface ComparedLine {
  other: string;
  heard: string;
  hum: string;
  row: ElectricsRow;
  says: string[] | null;
}

export interface Composed {
  text: string;
  leftOut: PlanSound[] | null;
  tables: Table[] | null;
}

export interface DiagDiagnostic {
  code: string;
  severity: string;
  span: DiagSpan;
  message: string;
  hint?: string;
  settings?: string[];
  related?: DiagRelated[];
}

export interface DiagPos {
  line: number;
  col: number;
}

export interface DiagRelated {
  span: DiagSpan;
  message: string;
}

export interface DiagSpan {
  file: string;
  start: DiagPos;
  end: DiagPos;
}

export interface DiagnosisAnswer {
  ask: string;
  said: string;
  doubt?: boolean;
}

export interface DiagnosisFit {
  ask: string;
  said: string;
  can: string;
  how: string;
  right: string;
}

export interface DiagnosisMisfit {
  faults: string[] | null;
  not: DiagnosisFit[] | null;
}

export interface DiagnosisNext {
  key: string;
  kind: string;
  setting: string;
  knobs?: string[];
  red?: string;
  black?: string;
  redTerm: number;
  blackTerm: number;
  coil?: string;
  do: string;
  range?: string;
  shows: string;
  lo?: string;
  hi?: string;
  answers?: string[];
  rulesOut?: string[];
  bits: number;
  why: string;
}

export interface DiagnosisPair {
  first: string[] | null;
  second: string[] | null;
  common?: boolean;
}

export interface DiagnosisState {
  answers: DiagnosisAnswer[] | null;
  symptoms?: DiagnosisSymptom[];
  skip?: string[];
}

export interface DiagnosisSuspect {
  faults: string[] | null;
  kinds: string[] | null;
  chance: number;
  fits: DiagnosisFit[] | null;
  do: string[] | null;
  terms: number[] | null;
  runs: number[] | null;
}

export interface DiagnosisSymptom {
  kind: string;
  with?: string;
  knob?: string;
}

export interface Edited {
  text: string;
}

export interface ElectricsBand {
  hz: number[] | null;
  lo: number[] | null;
  hi: number[] | null;
  kind: string;
}

export interface ElectricsCoilGain {
  coil: string;
  re: number[] | null;
  im: number[] | null;
}

export interface ElectricsCurve {
  output: string;
  hz: number[] | null;
  db: number[] | null;
  coils: ElectricsCoilGain[] | null;
  peak?: ElectricsPeak;
  zout?: number[];
}

export interface ElectricsHeard {
  coil: string;
  level: number;
}

export interface ElectricsHum {
  verdict: string;
  index: number;
  lo: number;
  hi: number;
  limited?: boolean;
  settle?: string[];
  needs?: string[];
}

export interface ElectricsNote {
  code: string;
  settings?: string[];
  text: string;
}

export interface ElectricsPeak {
  hz: number;
  db: number;
  fall?: number;
}

export interface ElectricsReading {
  a: string;
  b: string;
  verdict: string;
  ohms: number;
  lo: number;
  hi: number;
  typical?: boolean;
  through?: string[];
  words: string;
}

export interface ElectricsRow {
  index: number;
  setting: string;
  output: string;
  ohms: ElectricsReading;
  low: number;
  level: number;
  levelLo: number;
  levelHi: number;
  brightness: number;
  peak?: ElectricsPeak;
  hum: ElectricsHum;
  noise?: number;
  unsure?: string[];
  heard: ElectricsHeard[] | null;
}

export interface ElectricsRowBand {
  index: number;
  low: ElectricsSpan;
  level: ElectricsSpan;
  brightness: ElectricsSpan;
  peakHz?: ElectricsSpan;
  peakDB?: ElectricsSpan;
  hum: ElectricsSpan;
  kind: string;
}

export interface ElectricsShown {
  range: string;
  digits: string;
  unit: string;
  lo: string;
  hi: string;
  loOhms: number;
  hiOhms: number;
  words: string;
}

export interface ElectricsSpan {
  lo: number;
  hi: number;
}

export interface ElectricsSplit {
  index: number;
  setting: string;
  coil: string;
  louder: number;
  short?: ElectricsPeak;
  open?: ElectricsPeak;
  words: string;
}

export interface Failure {
  error: string;
}

export interface Formatted {
  text: string;
  findings: DiagDiagnostic[] | null;
}

export interface Found {
  status: string;
  scheme?: string;
  wirings?: SynthesisWiring[];
  smallest: boolean;
  byPart?: boolean;
  bound?: number;
  settled: boolean;
  covers?: string[];
  rests?: SynthesisRest[];
  conflicts: number;
  cutShort?: boolean;
  why?: SynthesisWhy;
  texts: string[] | null;
  proved: boolean[] | null;
  findings: DiagDiagnostic[] | null;
}

export interface Judged {
  verdict: string;
  says: string;
  suspects: DiagnosisSuspect[] | null;
  left: number;
  next?: DiagnosisNext;
  do?: string[];
  misfits?: DiagnosisMisfit[];
  pairs?: DiagnosisPair[];
  harmless?: string[];
  before: string[] | null;
  kinds: string[][] | null;
  proof?: MeterProof;
}

export interface LeadEnd {
  lead: string;
  ends: string[] | null;
}

export interface LeadNotes {
  leads: LeadEnd[] | null;
  inside?: string[][];
  ohms?: Record<string, string>;
  pole?: Record<string, string>;
}

export interface LeadStep {
  question?: LeadsQuestion;
  found?: LeadsFound;
  left: number;
  notes?: LeadNotes;
}

export interface LeadsAnswer {
  ask: string;
  said: string;
}

export interface LeadsFound {
  says: string;
  ends: Record<string, string[]>;
  ohms?: Record<string, string>;
  pole?: Record<string, string>;
  part: string;
  notes?: string[];
  right?: boolean;
  sound: boolean;
}

export interface LeadsFoundSwitch {
  says: string;
  groups: Record<string, string[][]>;
  poles: LeadsPole[] | null;
  unused?: string[];
}

export interface LeadsPickup {
  make: string;
  leads: string[] | null;
  bare?: string;
  hidden?: boolean;
  plate?: boolean;
  compass?: boolean;
  coils?: string[];
  part?: string;
  names?: string[];
}

export interface LeadsPole {
  common: string;
  lugs: string[] | null;
}

export interface LeadsQuestion {
  key: string;
  do: string;
  answers?: string[];
  why: string;
  safety?: boolean;
}

export interface LeadsState {
  pickup: LeadsPickup;
  answers: LeadsAnswer[] | null;
  believed?: Record<string, string[]>;
  skip?: string[];
}

export interface LeadsSweep {
  position: string;
  on: string;
  over: string[] | null;
  meet: string[] | null;
}

export interface LeadsSwitchQuestion {
  position: string;
  on: string;
  over: string[] | null;
  do: string;
}

export interface LeadsSwitchState {
  lugs: string[] | null;
  positions: string[] | null;
  answers: LeadsSweep[] | null;
}

export interface Levels {
  loomwright: number;
  file: string;
  title?: string;
  over: string;
  settings: ElectricsRow[] | null;
  bands?: ElectricsRowBand[];
  notes?: ElectricsNote[];
  splits?: ElectricsSplit[];
  assumed: string;
  findings: DiagDiagnostic[] | null;
}

export interface LugStep {
  question?: LeadsSwitchQuestion;
  found?: LeadsFoundSwitch;
  part?: string;
  choice?: Choice;
}

export interface Measured {
  loomwright: number;
  file: string;
  settings: MeasuredLine[] | null;
  findings: DiagDiagnostic[] | null;
}

export interface MeasuredLine {
  setting: string;
  reading: ElectricsReading;
  shown: ElectricsShown;
}

export interface MeterLine {
  key: string;
  kind: string;
  setting: string;
  knobs?: string[];
  red?: string;
  black?: string;
  redTerm: number;
  blackTerm: number;
  coil?: string;
  do: string;
  range?: string;
  shows: string;
  lo?: string;
  hi?: string;
  answers?: string[];
  rulesOut?: string[];
}

export interface MeterMissed {
  fault: string;
  why: string;
}

export interface MeterProof {
  name?: string;
  before: string[] | null;
  lines: MeterLine[] | null;
  shortest: boolean;
  shown: number;
  faults: number;
  missed?: MeterMissed[];
  harmless?: MeterMissed[];
}

export interface OpenKnob {
  name: string;
  rest: number;
}

export interface OpenLoom {
  loomwright: number;
  file: string;
  title?: string;
  settings: ProofRow[] | null;
  figures?: ElectricsRow[];
  over?: string;
  findings: DiagDiagnostic[] | null;
  lines: SettingLine[] | null;
  parts: OpenPart[] | null;
  terms: OpenTerm[] | null;
  runs: OpenRun[] | null;
  knobs: OpenKnob[] | null;
  switches: OpenSwitch[] | null;
  plan: BuildPlan;
}

export interface OpenPart {
  name: string;
  is: string;
  class: string;
  says: string;
  line: number;
}

export interface OpenRun {
  a: number;
  b: number;
  kind: string;
  line: number;
}

export interface OpenSwitch {
  name: string;
  positions: string[] | null;
}

export interface OpenTerm {
  name: string;
  other?: string;
  kind: string;
  part: number;
}

export interface PartLine {
  id: string;
  class: string;
  name: string;
  about?: string;
}

export interface PartShape {
  Shape: string;
  At: number[];
  Size: number[];
  Round: number;
  Points: number[][] | null;
  Text: string;
  Fill: string;
}

export interface Pictured {
  svg?: string;
  data?: string;
  crossings: number;
  findings: DiagDiagnostic[] | null;
}

export interface Plan {
  title: string;
  parts: PlanPart[] | null;
  own?: Record<string, string>;
  scheme?: string;
  sounds: PlanSound[] | null;
}

export interface PlanPart {
  name: string;
  is: string;
  code?: string;
  track?: string;
  value?: string;
  capacitor?: string;
  resistor?: string;
  ohms?: string;
  reverse?: boolean;
  notes?: LeadNotes;
}

export interface PlanSound {
  with?: string;
  hear: string;
}

export interface ProofKnobAct {
  knob: string;
  does: string;
  mutes?: string[];
}

export interface ProofPassage {
  to: string;
  switch: string;
  moment: string;
  together?: boolean;
}

export interface ProofRow {
  name: string;
  output: string;
  sound: SoundExpr;
  heard: string;
  short: string;
  unsure?: boolean;
  phase: string;
  hum: string;
  off?: string[];
  shorted?: string[];
  hanging?: string[];
  knobs?: ProofKnobAct[];
  travel?: ProofPassage[];
  wanted?: ProofWanted;
  liveRuns?: number[];
}

export interface ProofWanted {
  sound: string;
  met: string;
  why?: string;
}

export interface Reference {
  name: string;
  text: string;
  with: string;
}

export interface SchemeChoice {
  name: string;
  about: string;
  each: SchemeRole[] | null;
  whole: SchemeRole[] | null;
  some: boolean;
  late: boolean;
}

export interface SchemeRole {
  name: string;
  is: string;
  shared: boolean;
  optional: boolean;
}

export interface SettingLine {
  Setting: string;
  Heard: string;
  Phase: string;
  Hum: string;
  Knobs: string;
  Level: string;
  Bright: string;
  Travel: string;
  Wanted: string;
  LiveRuns: number[] | null;
}

export interface Sketch {
  svg?: string;
  data?: string;
  crossings: number;
  findings: DiagDiagnostic[] | null;
  spots: number[][] | null;
  places: Record<string, number[]>;
}

export interface SoundExpr {
  op: string;
  name?: string;
  reversed?: boolean;
  unsure?: boolean;
  kids?: SoundExpr[];
}

export interface StageCheck {
  stage: string;
  before: string[] | null;
  readings: StageLine[] | null;
  says?: string;
  suspects?: StageSuspect[];
  do?: string[];
}

export interface StageLine {
  key: string;
  kind: string;
  setting: string;
  knobs?: string[];
  red?: string;
  black?: string;
  redTerm: number;
  blackTerm: number;
  coil?: string;
  do: string;
  range?: string;
  shows: string;
  lo?: string;
  hi?: string;
  answers?: string[];
  rulesOut?: string[];
  right: string;
  said?: string;
  met?: string;
  wrong?: string;
}

export interface StageSuspect {
  faults: string[] | null;
  do: string[] | null;
  runs: number[] | null;
  terms: number[] | null;
}

export interface Start {
  name: string;
  says: string;
  text: string;
}

export interface SynthesisAnother {
  part: string;
  name: string;
  for: string;
  order?: SynthesisPlaced[];
  joins?: number;
  proved?: boolean;
}

export interface SynthesisJoin {
  from: string[] | null;
  to: string;
  options?: string;
}

export interface SynthesisNoise {
  from: string;
  to: string;
  moment: string;
}

export interface SynthesisPlaced {
  position: string;
  gets: string;
}

export interface SynthesisProgress {
  stage: string;
  conflicts: number;
  joins: number;
}

export interface SynthesisRest {
  takes: string;
  reading: string;
  swap: string;
}

export interface SynthesisWhy {
  conflict: SynthesisWish[] | null;
  least: boolean;
  rule?: string;
  giveUp?: SynthesisWish[];
  giveUpAll?: SynthesisWish[];
  hint?: string;
  orderOf?: string;
  order?: SynthesisPlaced[];
  switch?: SynthesisAnother;
  loosened?: string[];
  unexplored?: boolean;
}

export interface SynthesisWiring {
  joins: SynthesisJoin[] | null;
  count: number;
  long: number;
  noise?: SynthesisNoise[];
  crowded?: string[];
  differs?: string[];
}

export interface SynthesisWish {
  sound: number;
  with: string;
  hear: string;
}

export interface Table {
  says: string;
  sounds: PlanSound[] | null;
}

export interface Traced {
  setting: string;
  curve: ElectricsCurve;
  band?: ElectricsBand;
}

export interface WishGroup {
  name: string;
  sounds: string[] | null;
}

export interface Wishes {
  words: string[] | null;
  groups: WishGroup[] | null;
}

export interface Worded {
  leads: LeadEnd[] | null;
  inside?: string[][];
  ohms?: Record<string, string>;
  pole?: Record<string, string>;
  left: string[] | null;
}
