// Types of what goes into and comes out of Fallwright, version 1.
// Made by tools/api/generate_types.py from api/schema/v1; do not edit by hand.
// Lengths are in the unit of the book, gradients rise per length, uncertainties one standard deviation.

// --- What the schemas share, version 1

/** Unit of every length: metres, or feet of 0.3048 m */
export type Unit = "m" | "ft";

/** The sense of a gradient in the direction of chainage, or from the first reading to the last */
export type Word = "falling" | "rising" | "level";

/** What the tool noticed: what, where, the cure */
export interface Finding {
  /** error: something is left out or cannot be told; warning: a person should look; note: said once, so that nobody is surprised */
  severity: "error" | "warning" | "note";
  /** Stable code, see docs/errors.md */
  code: FindingCode;
  /** Entry ids (#N: line N), points, set-ups, instruments it is about */
  about: string[];
  /** One sentence */
  message: string;
  /** What to do about it */
  cure: string;
}

/** What must be said where it applies; no judgement, and it cannot be switched off */
export interface Caution {
  code: "excavation" | "inspection" | "way-out" | "air" | "slopes" | "engineered" | "spoil" | "services" | "confined-space" | "traffic" | "drainage-design" | "laser-light" | "job";
  /** Lines or instruments it is about */
  about: string[];
  /** A sentence or two */
  text: string;
  /** Where it is from; empty for common practice */
  source: string;
  edition: string;
  provenance: "published" | "from memory" | "common practice, no source";
}

// --- Codes of findings

/** What a finding is called; codes are added, never renamed */
export type FindingCode =
  | "not-a-book"
  | "torn-line"
  | "line-too-long"
  | "too-deep"
  | "repeated-key"
  | "not-finite"
  | "unknown-kind"
  | "unknown-field"
  | "missing-field"
  | "wrong-type"
  | "out-of-range"
  | "bad-sd"
  | "bad-time"
  | "bad-id"
  | "duplicate-id"
  | "duplicate-name"
  | "unknown-reference"
  | "no-value"
  | "value-twice"
  | "high-and-low"
  | "no-clamp"
  | "no-point"
  | "no-setup"
  | "beyond-staff"
  | "wire-order"
  | "outside-window"
  | "finer-than-step"
  | "wire-spread"
  | "distance-differs"
  | "laid-at-chamber"
  | "unknown-of"
  | "amend-not-applied"
  | "conflicting-benchmarks"
  | "join-conflict"
  | "assumed-errors"
  | "assumed-datum"
  | "assumed-distance"
  | "body-not-oriented"
  | "no-place-on-slope"
  | "no-bearing-on-slope"
  | "head-without-place"
  | "match-not-proved"
  | "undetermined"
  | "nothing-read"
  | "chi-high"
  | "chi-low"
  | "place-unknown"
  | "other-frames"
  | "profile-order"
  | "profile-single"
  | "profile-overridden"
  | "under-unknown"
  | "curve-refused"
  | "off-profile"
  | "chamber-twice"
  | "chamber-rises"
  | "join-to-nothing"
  | "join-circle"
  | "join-no-bore"
  | "join-too-many"
  | "flow-assumed"
  | "flow-uphill"
  | "pipe-order"
  | "pipe-overlap"
  | "pipe-hole"
  | "wall-assumed"
  | "layer-twice"
  | "layers-unused"
  | "crossfall-order"
  | "edges-crossed"
  | "on-unknown"
  | "on-not-laid"
  | "page-no-back"
  | "misclosure-too-large"
  | "page-disagrees"
  | "unknown-preset"
  | "preset-from-memory"
  | "preset-hint"
  | "bad-request"
  | "bad-number"
  | "bad-file"
  | "network-folder"
  | "fall-disagrees"
  | "tolerance-unused"
  | "relaid-not-read"
  | "bad-confidence"
  | "dial-no-design"
  | "dial-two-planes"
  | "dial-twisted"
  | "dial-no-bearing"
  | "dial-no-place"
  | "dial-beyond-limit"
  | "dial-out-of-range"
  | "dial-axis-far-off"
  | "dial-axis-locked"
  | "dial-not-level-across"
  | "dial-no-tilt"
  | "dial-collinear"
  | "dial-baseline-short"
  | "dial-differs"
  | "drain-no-fall"
  | "drain-overfull"
  | "drain-two-depths"
  | "drain-not-turbulent"
  | "drain-too-rough"
  | "drain-no-flow"
  | "setout-no-design"
  | "setout-no-surface"
  | "setout-no-target"
  | "setout-assumed-sight"
  | "setout-beyond-staff"
  | "setout-out-of-range"
  | "setout-too-many"
  | "setout-no-cover"
  | "setout-rails"
  | "trench-depth"
  | "surface-few-points"
  | "surface-point-left-out"
  | "surface-outline"
  | "surface-spots-together"
  | "surface-breakline"
  | "surface-off-grid"
  | "surface-no-cells"
  | "surface-field-unused"
  | "surface-too-many"
  | "volume-partly"
  | "volume-no-target"
  | "surface-no-outlet"
  | "flatness-not-told"
  | "drain-flatter"
  | "drain-flatter-hint"
  | "drain-short-cover"
  | "drain-dip-differs"
  | "drain-trench-unknown"
  | "drain-follow-no-ground"
  | "drain-follow-thinned"
  | "drain-outfall-too-high"
  | "drain-bore-narrows"
  | "near-names"
  | "no-neighbour"
  | "reading-sd-differs"
  | "unknown-suspect-kind"
  | "amended-on-suspicion"
  | "plan-nothing"
  | "plan-no-stations"
  | "plan-no-benchmark"
  | "plan-not-provable"
  | "plan-narrow"
  | "plan-out-of-range"
  | "plan-unguarded"
  | "plan-beyond-staff"
  | "ground-no-area"
  | "ground-too-wide"
  | "ground-boundary"
  | "ground-contours"
  | "ground-spots-together"
  | "ground-breaklines-cross"
  | "trial-no-shots"
  | "trial-no-distance"
  | "trial-sees-nothing"
  | "trial-inconsistent"
  | "trial-fails"
  | "trial-too-close"
  | "trial-scatter"
  | "trial-drift"
  | "trial-moved"
  | "trial-blind"
  | "trials-disagree"
  | "trials-scatter"
  | "trial-outdated"
  | "import-no-header"
  | "import-row"
  | "import-encoding"
  | "import-assumed-encoding"
  | "import-too-large"
  | "import-quote"
  | "import-column"
  | "import-unit"
  | "import-number"
  | "import-ambiguous"
  | "import-reading"
  | "import-differs"
  | "import-sum"
  | "import-inverted"
  | "import-order"
  | "import-same-point"
  | "import-distance"
  | "import-renamed"
  | "import-empty"
  | "import-not-used"
  | "import-xml"
  | "import-element"
  | "import-json"
  | "import-taken"
  | "import-chorded"
  | "import-converted"
  | "import-assumed"
  | "import-same"
  | "export-nothing"
  | "export-left-out"
  | "no-projection";

// --- One entry of a book, version 1

/** One line of a *.book.jsonl file. Lengths are in the unit of the book, uncertainties one standard deviation; what is not given is 0 or absent. Fields and kinds that are not described here are kept and reported, not evaluated. */
export type Entry = KnownEntry | OtherEntry;

/** An entry of a kind this version knows; kind tells which */
export type KnownEntry =
  | BookEntry
  | BenchmarkEntry
  | InstrumentEntry
  | StaffEntry
  | ReceiverEntry
  | LineEntry
  | PlaceEntry
  | SetupEntry
  | ReadingEntry
  | StepEntry
  | WhatEntry
  | ToleranceEntry
  | TrialEntry
  | SurfaceEntry
  | WantEntry
  | RuleEntry
  | RelaidEntry
  | AdjustedEntry
  | AmendEntry
  | StrikeEntry
  | RemarkEntry;

/** An entry of a kind this version does not know: kept and reported */
export interface OtherEntry {
  kind: string;
}

/** What every entry may carry; written by the tools, optional by hand */
export interface AnyEntry {
  /** DEVICE-COUNTER where a tool wrote it; one beginning with # is refused, #N names line N */
  id?: string;
  /** When it was seen, RFC 3339; absent: that of the nearest entry above that has one */
  at?: string;
  /** Who wrote it */
  by?: string;
}

/** The first line: what this file is */
export interface BookEntry extends AnyEntry {
  kind: "book";
  format: "fallwright";
  /** Version of the format */
  version: 1;
  /** The job, as people call it */
  title?: string;
  /** What the levels count from */
  datum?: string;
  /** Default: "m". */
  unit?: Unit;
  /** Whether the earth's curvature and refraction are taken off wherever there is a distance. Default: true. */
  curvature?: boolean;
}

/** A point of known level */
export interface BenchmarkEntry extends AnyEntry {
  kind: "benchmark";
  /** A name, as written by hand */
  point: string;
  /** Its level, in the book's unit */
  level: number;
  /** How well the level is known; absent or 0: held fixed */
  sd?: number;
  /** Where the level comes from */
  source?: string;
}

/** A level or laser and its error figures; a figure given overrides the default, an sd of 0 switches the effect off */
export interface InstrumentEntry extends AnyEntry {
  kind: "instrument";
  /** A name, as written by hand */
  name: string;
  type: "rotating-laser" | "optical-level" | "pipe-laser";
  /** Of one reading close by, a length. Default 0.0012 m, optical level 0.0008 m */
  reading_sd?: number;
  /** Of one reading, growing with distance, length per length; joined to reading_sd as a hypotenuse. Default for an optical level 1.2e-5 */
  sd_per_m?: number;
  /** Tilt of the plane that turns with the body, along main and to the right, length per length */
  tilt?: [number, number];
  /** Length per length, each axis. Default for a laser 2e-5 */
  tilt_sd?: number;
  /** Tilt new at each levelling-up, length per length, each axis. Default for a laser 1.3e-5 */
  setting_tilt_sd?: number;
  /** Rise of the light with distance in every direction, length per length */
  cone?: number;
  /** Length per length. Default for a laser 2e-5 */
  cone_sd?: number;
  /** Rise of an optical level's line of sight, length per length */
  collimation?: number;
  /** Length per length. Default for an optical level 5e-5 */
  collimation_sd?: number;
  /** How well the main axis is pointed, degrees. Default 0.5 */
  aim_sd?: number;
  /** Of a gradient set, per set-up and axis, length per length. Default for a laser 3e-5 */
  grade_sd?: number;
  /** Of a gradient set, in proportion to it, 0.001 is 0.1 % of the gradient */
  grade_gain_sd?: number;
  /** Least step of the gradient display, rise per length */
  grade_step?: number;
  /** Steepest gradient that can be set on main and cross, rise per length */
  grade_limit?: [number, number];
  /** How far it reaches, in the book's unit */
  range?: number;
  keypad?: Keypad;
}

/** How the machine's own display writes gradients; the tools translate */
export interface Keypad {
  /** What plus means along main. Default: "rises". */
  main_plus?: "rises" | "falls";
  /** What plus means along cross. Default: "rises". */
  cross_plus?: "rises" | "falls";
  /** Where cross points, seen along main. Default: "right". */
  cross_side?: "right" | "left";
  /** Default: "%". */
  grade_unit?: "%" | "permille";
  /** nested: the second axis is tilted with the first. Default: "independent". */
  axes?: "independent" | "nested";
}

/** A staff */
export interface StaffEntry extends AnyEntry {
  kind: "staff";
  /** A name, as written by hand */
  name: string;
  /** Its length. Unknown: 10 m */
  length?: number;
  /** Least step read */
  to?: number;
  /** What it reads too much at its foot */
  zero?: number;
  /** One standard deviation, in the unit of what it belongs to; 0 switches the effect off */
  zero_sd?: number;
  /** What it reads too much, length per length */
  scale?: number;
  /** One standard deviation, in the unit of what it belongs to; 0 switches the effect off */
  scale_sd?: number;
  /** Joints of a telescopic staff; readings above one carry its play */
  joints?: {
    /** Height of the joint on the staff */
    at: number;
    /** Its play, a length */
    step_sd?: number;
  }[];
}

/** A hand-held receiver for a laser */
export interface ReceiverEntry extends AnyEntry {
  kind: "receiver";
  /** A name, as written by hand */
  name: string;
  /** Half the range of its figures: the largest HIGH or LOW it can show */
  window?: number;
  /** Band in which it shows on grade; changes no sd */
  dead_band?: number;
}

/** A line of work: where it runs and how high it shall be. The profile of a drain is its invert */
export interface LineEntry extends AnyEntry {
  kind: "line";
  /** A name, as written by hand */
  name: string;
  use?: "drain" | "road" | "kerb" | "slab" | "other";
  /** Its vertices, [east, north] */
  plan?: [number, number][];
  /** Chainage of the first vertex. Default: 0. */
  start?: number;
  /** The design, by rising chainage; the first has no point before it to count a gradient from */
  profile?: ProfilePoint[];
  /** Which way the water runs along chainage. Default: as the profile's ends fall; level: with */
  flow?: "with" | "against";
  /** A gradient rises to the right; [left, right] rises outwards on each side; a list by chainage runs straight from one to the next */
  crossfall?: number | string | [number | string, number | string] | CrossfallAt[];
  /** How far the edges lie to the left and to the right */
  edges?: [number, number];
  pipes?: Pipe[];
  chambers?: Chamber[];
  joins?: Joins | Joins[];
  /** Chainages where water leaves; a sag there is no pond */
  outlets?: number[];
  /** Downward from finished; what is the layer's top, under the last comes formation */
  layers?: {
    /** A name, as written by hand */
    what: string;
    /** A length over 0, in the book's unit */
    thickness: number;
  }[];
  /** Height above the profile, for each name */
  whats?: Record<string, number>;
}

/** A point of the design: its level, or the gradient from the point before, or a point it hangs under */
export interface ProfilePoint {
  /** Chainage */
  ch: number;
  /** A length, in the book's unit */
  level?: number;
  /** From the point before, rising with chainage positive */
  gradient?: number | string;
  /** The point it hangs under */
  under?: string;
  /** How far it hangs under that point. Default: 0. */
  by?: number;
  /** Length of a vertical curve here */
  curve?: number;
}

/** Crossfall at a chainage, rising outwards on each side; without left one plane, rising to the right */
export interface CrossfallAt {
  /** Chainage */
  ch: number;
  /** A gradient: rise per length as a number, or text as the trade writes it ("1 in 80 fall", "-1.25 %"); kept as typed */
  left?: number | string;
  /** A gradient: rise per length as a number, or text as the trade writes it ("1 in 80 fall", "-1.25 %"); kept as typed */
  right: number | string;
}

/** One run of pipe, by chainage */
export interface Pipe {
  /** Chainage */
  from: number;
  /** Chainage */
  to: number;
  /** A length over 0, in the book's unit */
  bore?: number;
  /** Absent: 0, a note */
  wall?: number;
  /** Thickness under the pipe */
  bedding?: number;
  /** A length of 0 or more, in the book's unit */
  roughness?: number;
  /** Rise of the collar above the barrel */
  collar?: number;
}

/** A chamber or manhole; its invert levels override the profile */
export interface Chamber {
  /** A name, as written by hand */
  name: string;
  /** Chainage */
  ch: number;
  /** Invert level where the water comes in */
  in?: number;
  /** Invert level where it leaves; default: in */
  out?: number;
  /** Level of the cover */
  cover?: number;
  /** Inner size along the line */
  size?: number;
}

/** Where the downstream end joins another line */
export interface Joins {
  /** A name, as written by hand */
  line: string;
  /** Chainage on that line */
  ch: number;
  /** invert: at the other's invert; soffit: at its soffit less the own bore */
  by?: "soffit" | "invert";
}

/** Where something is: coordinates, or chainage and offset on a line, or a point */
export interface Position {
  /** East */
  e?: number;
  /** North */
  n?: number;
  /** A name, as written by hand */
  line?: string;
  /** Chainage */
  ch?: number;
  /** Offset, right positive. Default: 0. */
  off?: number;
  /** A name, as written by hand */
  point?: string;
}

/** Where a point is */
export interface PlaceEntry extends AnyEntry {
  kind: "place";
  /** A name, as written by hand */
  point: string;
  /** East */
  e?: number;
  /** North */
  n?: number;
  /** A name, as written by hand */
  line?: string;
  /** Chainage */
  ch?: number;
  /** Offset, right positive. Default: 0. */
  off?: number;
}

/** An instrument stood up and levelled, with the plane or line of sight it gives */
export interface SetupEntry extends AnyEntry {
  kind: "setup";
  /** A name, as written by hand */
  name: string;
  /** A name, as written by hand */
  instrument: string;
  place?: Position;
  plane?: Plane;
  /** The set-up whose tripod this is: only the plane has been changed */
  head?: string;
  /** How well the head keeps its height then. Default 0.001 m */
  head_sd?: number;
  /** What the instrument displays after a match, rising along main and to the right */
  shown?: {
    /** A gradient: rise per length as a number, or text as the trade writes it ("1 in 80 fall", "-1.25 %"); kept as typed */
    main?: number | string;
    /** A gradient: rise per length as a number, or text as the trade writes it ("1 in 80 fall", "-1.25 %"); kept as typed */
    cross?: number | string;
  };
  /** The mark on the staff the receiver stays at */
  clamp?: number;
  /** A name, as written by hand */
  staff?: string;
  /** A name, as written by hand */
  receiver?: string;
}

/** The plane of the light; absent: level */
export interface Plane {
  /** Gradient set along the main axis, rising positive; null: matched, not known */
  main?: number | string | null;
  /** Gradient set to the right, rising positive; null: matched, not known */
  cross?: number | string | null;
  /** Where the main axis points, degrees clockwise from grid north */
  bearing?: number;
  /** The point, or the line (with chainage), the main axis points to */
  towards?: string;
}

/** What was seen on the staff, in one of these ways: staff; mark with high, low or offset; high or low alone where the set-up has a clamp; top, staff and bottom (three wires) */
export interface Figure {
  /** Figure on the staff; negative: the staff hung upside down */
  staff?: number;
  /** Where the receiver was held on the staff */
  mark?: number;
  /** How much the receiver showed itself above the beam */
  high?: number;
  /** How much the receiver showed itself below the beam */
  low?: number;
  /** From the mark to the beam, towards the larger figures positive */
  offset?: number;
  /** Upper wire */
  top?: number;
  /** Lower wire */
  bottom?: number;
  /** The staff hung upside down from a soffit. Default: false. */
  inverted?: boolean;
}

/** One look at the staff */
export interface ReadingEntry extends AnyEntry, Figure {
  kind: "reading";
  /** Default: the last set-up */
  setup?: string;
  /** A name, as written by hand */
  point?: string;
  /** A name, as written by hand */
  line?: string;
  /** Chainage on the line */
  ch?: number;
  /** Offset, right positive. Default: 0. */
  off?: number;
  /** What the staff stood on: ground, laid, finished … Default on a line: ground */
  what?: string;
  /** Distance from the instrument. Three wires: 100 (top - bottom) unless given */
  dist?: number;
  /** One standard deviation, in the unit of what it belongs to; 0 switches the effect off */
  dist_sd?: number;
  /** One standard deviation of this reading, instead of the instrument's */
  sd?: number;
  /** Least step it was read to */
  to?: number;
  /** The staff used */
  with?: string;
  /** The receiver used */
  receiver?: string;
  /** Length of a shoe under the staff; adds to the figure read */
  shoe?: number;
  /** Default: back for a point already known and read first in the set-up, else inter */
  sight?: "back" | "inter" | "fore";
  /** Along the main axis from the instrument; wins over places; of along and across the one not given is 0 */
  along?: number;
  /** To the right of the main axis; wins over places */
  across?: number;
  /** Where on the pipe the staff stood; it is taken down to the invert */
  on?: "invert" | "soffit" | "crown" | "collar";
  /** Not read yet: no value, left out of evaluate. Default: false. */
  planned?: boolean;
}

/** A difference of level carried by tape or spirit level */
export interface StepEntry extends AnyEntry {
  kind: "step";
  /** A point */
  from: string;
  /** A point */
  to: string;
  /** From the one to the other, up positive */
  rise: number;
  /** One standard deviation. Default 0.002 m */
  sd?: number;
}

/** A surface the staff stands on, and how well its foot finds it */
export interface WhatEntry extends AnyEntry {
  kind: "what";
  /** A name, as written by hand */
  name: string;
  /** A length. Defaults, in metres: laid, finished, invert, soffit, crown, peg, kerb 0.001; bed 0.003; formation and layers 0.005; ground and any other 0.010 */
  foot_sd?: number;
}

/** How far a surface of a line may be off, and how steep or flat */
export interface ToleranceEntry extends AnyEntry {
  kind: "tolerance";
  /** A name, as written by hand */
  line: string;
  /** A name, as written by hand */
  what?: string;
  /** Lowest deviation allowed, a length, negative */
  below?: number;
  /** Highest deviation allowed, a length */
  above?: number;
  /** Flattest fall, positive the way the water runs */
  fall_min?: number | string;
  /** Steepest fall, positive the way the water runs */
  fall_max?: number | string;
  /** Largest gap under a straightedge */
  gap?: number;
  /** Length of that straightedge. Default 3 m */
  over?: number;
  /** Pairs [distance of the high spots, gap], by rising distance */
  gaps?: [number, number][];
  irregularities?: IrregularityLimit[];
  /** Where the figures left open come from: rows or tables of docs/methods/presets.md, the first that says it. With tables alone what may be left out */
  preset?: string | string[];
  /** Where the figures come from, with edition */
  source?: string;
}

/** How often the surface may be off by size under a straightedge, in each length along it */
export interface IrregularityLimit {
  /** A length over 0, in the book's unit */
  size: number;
  /** A length over 0, in the book's unit */
  length: number;
  most: number;
}

/** A check of an instrument on site */
export interface TrialEntry extends AnyEntry {
  kind: "trial";
  /** A name, as written by hand */
  name: string;
  /** A name, as written by hand */
  instrument: string;
  shots: Shot[];
  /** Largest error at 30 m that passes. Default 0.0015 m */
  limit?: number;
}

/** One reading of a check; its value as in a reading */
export interface Shot extends Figure {
  /** Where the instrument stood */
  station: string;
  /** Where the staff stood */
  peg: string;
  /** From the instrument to the staff */
  dist?: number;
  /** Degrees clockwise from the main axis to the staff; absent: body not turned, pegs in one line */
  facing?: number;
  /** Which levelling-up; absent: each station and facing its own */
  turn?: string;
}

/** A measured surface: of points named, or of all points of one what */
export interface SurfaceEntry extends AnyEntry {
  kind: "surface";
  /** A name, as written by hand */
  name: string;
  points?: string[];
  /** A name, as written by hand */
  what?: string;
  /** Runs of points along edges */
  breaklines?: string[][];
  /** Its outline, [east, north] */
  inside?: [number, number][];
  /** What it is held against */
  to?: SurfaceTarget | SurfaceTarget[];
  /** Taken off all over before anything is dug or filled */
  strip?: number;
  /** Loose over bank, less 1: 0.25, or "25 %" */
  bulking?: number | string;
  /** 1 less compacted over bank: 0.1, or "10 %" */
  shrinkage?: number | string;
  /** Spacing of a grid along the bearing and across: cells in place of triangles */
  grid?: number | number[];
  /** Of the grid, and of main of the best plane; 0 unless given */
  bearing?: number;
  /** A point or a line, in place of bearing */
  towards?: string;
  /** Whether water runs off over the edge (default) or a kerb holds it */
  edge?: "open" | "kerbed";
  /** Points where water leaves */
  outlets?: string[];
  /** Presets of flatness */
  flatness?: string[];
  /** Difference of level between two contours */
  contours?: number;
}

/** A level, a plane through a level at a place, or another surface; by: so much under it */
export interface SurfaceTarget {
  /** A name, as written by hand */
  name?: string;
  /** A length, in the book's unit */
  level?: number;
  /** Where a plane has its level */
  at?: [number, number] | string;
  /** Rise along the bearing */
  main?: number | string;
  /** Rise to its right */
  cross?: number | string;
  /** 0, north, unless given */
  bearing?: number;
  /** A name, as written by hand */
  surface?: string;
  /** So much under it */
  by?: number;
}

/** Tables to keep ready in the result */
export interface WantEntry extends AnyEntry {
  kind: "want";
  /** A name, as written by hand */
  line?: string;
  /** A name, as written by hand */
  surface?: string;
  /** A name, as written by hand */
  setup?: string;
  /** Step of chainage */
  every?: number;
  what?: string[];
}

/** A rule of evaluation: by preset or by values */
export interface RuleEntry extends AnyEntry {
  kind: "rule";
  /** misclosure, assumed-sight, confidence, expectation, suspect-priors, hydraulics, cautions, cover, trench, spoil, projection …; cover, trench and spoil followed by a line's name are of that line only */
  name: string;
  /** A name, as written by hand */
  preset?: string;
  /** misclosure {by, a}, assumed-sight {d}, confidence {p}, expectation {sd}, suspect-priors {kind: p}: the weight that a book holds such a blunder, and none: that it holds none; 0 leaves a kind out; hydraulics {roughness or manning, viscosity, flow or dwellings, closets, fall, velocity, drag, source}; cautions {depth, egress, spoil, source, add}; cover {least}; trench {width, batter, surround}; spoil {bulking, load}; projection {ellipsoid, or a and inverse_flattening; latitude, longitude, scale, false_east, false_north; shift, turn, ppm}: how e and n become longitude and latitude */
  values?: {
    /** misclosure: sets allows a sqrt(n set-ups), km a sqrt(K kilometres one way), model 1.96 sd (default) */
    by?: "sets" | "km" | "model";
    /** misclosure: the factor, a length; projection: half the larger axis of the ellipsoid */
    a?: number;
    /** assumed-sight: the distance taken where none is given. Default 30 m */
    d?: number;
    /** confidence: probability from which it is within. Default 0.95 */
    p?: number;
    /** expectation: how well the design is expected to be met. Default 0.025 m */
    sd?: number;
    /** hydraulics: of pipes that give none, for Colebrook-White */
    roughness?: number;
    /** hydraulics: Manning's n, instead of a roughness */
    manning?: number;
    /** hydraulics: kinematic, m2/s. Default 1.007e-6 */
    viscosity?: number;
    /** hydraulics: peak flow; a number is in the book's unit cubed a second, text as the trade writes it ("2.5 l/s") */
    flow?: number | string;
    /** hydraulics: for their peak foul flow, where no flow is given */
    dwellings?: number;
    /** hydraulics: WCs that drain to it */
    closets?: number;
    /** hydraulics: least fall the job wants */
    fall?: number | string;
    /** hydraulics: least velocity the job wants; a number is in the book's unit a second */
    velocity?: number | string;
    /** hydraulics: least drag at the wall the job wants, N/m2 */
    drag?: number;
    /** cautions: depth from which local rules speak of support */
    depth?: number;
    /** cover: over the crown of a pipe */
    least?: number;
    /** trench: at its bottom */
    width?: number;
    /** trench: how far its sides lean out for 1 of depth. Default 0 */
    batter?: number;
    /** trench: how far over the crown the surround goes. Default 0.15 m */
    surround?: number;
    /** spoil: loose over in place, less 1 */
    bulking?: number;
    /** spoil: what one lorry takes, loose, in cubic units of the book */
    load?: number;
    /** cautions: depth from which local rules want a way out */
    egress?: number;
    /** cautions: how far from the edge local rules keep spoil */
    spoil?: number;
    /** hydraulics, cautions: where the figures are from */
    source?: string;
    /** cautions: sentences of the job's own */
    add?: string[];
    /** projection: the only one there is */
    method?: "transverse-mercator";
    /** projection: figure of the Earth by its name */
    ellipsoid?: "wgs-84" | "grs-80" | "airy-1830" | "airy-modified" | "bessel-1841" | "clarke-1866" | "clarke-1880-rgs" | "international-1924" | "krassowsky-1940";
    /** projection: 1 / f of an ellipsoid given by figures; its half axis is a */
    inverse_flattening?: number;
    /** projection: natural origin, degrees on the ellipsoid */
    latitude?: number;
    /** projection: natural origin, the central meridian, degrees */
    longitude?: number;
    /** projection: on the central meridian. Default 1 */
    scale?: number;
    /** projection: east of the natural origin. Default 0 */
    false_east?: number;
    /** projection: north of the natural origin. Default 0 */
    false_north?: number;
    /** projection: to WGS 84 along the axes of the Earth's centre. Default: none */
    shift?: number[];
    /** projection: to WGS 84, arc-seconds about these axes, as the position vector turns */
    turn?: number[];
    /** projection: to WGS 84, scale less 1 in parts per million */
    ppm?: number;
    /** A probability, 4 decimals */
    none?: number;
    /** A probability, 4 decimals */
    misread?: number;
    /** A probability, 4 decimals */
    "digits-swapped"?: number;
    /** A probability, 4 decimals */
    "offset-reversed"?: number;
    /** A probability, 4 decimals */
    "offset-omitted"?: number;
    /** A probability, 4 decimals */
    "staff-inverted"?: number;
    /** A probability, 4 decimals */
    "staff-section"?: number;
    /** A probability, 4 decimals */
    "wrong-point"?: number;
    /** A probability, 4 decimals */
    "wrong-setup"?: number;
    /** A probability, 4 decimals */
    "wrong-benchmark"?: number;
    /** A probability, 4 decimals */
    "moved-change-point"?: number;
    /** A probability, 4 decimals */
    "grade-left-in"?: number;
    /** A probability, 4 decimals */
    "grade-reversed"?: number;
    /** A probability, 4 decimals */
    "axes-swapped"?: number;
    /** A probability, 4 decimals */
    "aim-off"?: number;
    /** A probability, 4 decimals */
    knocked?: number;
    /** A probability, 4 decimals */
    settling?: number;
    /** A probability, 4 decimals */
    "instrument-out"?: number;
    /** A probability, 4 decimals */
    "wrong-distance"?: number;
    /** A probability, 4 decimals */
    "other-beam"?: number;
  };
}

/** A surface has been made anew: readings after it are of the new one */
export interface RelaidEntry extends AnyEntry {
  kind: "relaid";
  /** A name, as written by hand */
  line: string;
  /** A name, as written by hand */
  what: string;
  /** Chainage, inclusive; absent: the whole line */
  from?: number;
  /** Chainage, inclusive; absent: the whole line */
  to?: number;
  why?: string;
}

/** An instrument has been adjusted: checks and readings before it no longer speak for it */
export interface AdjustedEntry extends AnyEntry {
  kind: "adjusted";
  /** A name, as written by hand */
  instrument: string;
  why?: string;
}

/** Sets fields of an entry above; what was written stays in the book */
export interface AmendEntry extends AnyEntry {
  kind: "amend";
  /** Id of an entry above, or #N for its line */
  of: string;
  /** Field: new value; null removes it. kind, id, at and by cannot be set */
  set: Record<string, unknown>;
  why: string;
  /** Field: value that must stand now, absent and null being equal; else it is not applied */
  was?: Record<string, unknown>;
  /** Of an amendment taken over from a suspicion: the point whose next reading decides; flagged until it is read */
  settle?: string;
}

/** Takes an entry above out of the evaluation; striking an amend or a strike undoes it */
export interface StrikeEntry extends AnyEntry {
  kind: "strike";
  /** Id of an entry above, or #N for its line */
  of: string;
  why: string;
}

/** Words for whoever reads the book */
export interface RemarkEntry extends AnyEntry {
  kind: "remark";
  text: string;
}

// --- A request to Fallwright, version 1

/** One door for the command line, the browser and the server: a verb, the text of a book where the verb needs one, and options. The answer is the schema of that name, or error.schema.json where the request is not usable. */
export type DeskRequest =
  | EvaluateRequest
  | LevelsRequest
  | CheckRequest
  | TrialRequest
  | SuspectsRequest
  | FallRequest
  | DialRequest
  | SetoutRequest
  | PlanRequest
  | DrainRequest
  | DrainsRequest
  | FiguresRequest
  | ReportRequest
  | StaffRequest
  | ExportRequest
  | ImportRequest;

/** A number, or text as a person types it: "1.432", "4' 8 1/4\"", "1 in 80 fall" */
export type Typed = number | string;

/** The whole text of a book file */
export type BookText = string;

/** Levels, planes, pages, statistics, lines of a book */
export interface EvaluateRequest {
  verb: "evaluate";
  book: BookText;
  options?: EvaluateOptions;
}

/** The levels of a book only: evaluate's parts under the same names */
export interface LevelsRequest {
  verb: "levels";
  book: BookText;
  options?: EvaluateOptions;
}

/** What was laid on the lines of a book, judged: evaluate's parts under the same names */
export interface CheckRequest {
  verb: "check";
  book: BookText;
  options?: EvaluateOptions;
}

/** What probably went wrong, and the reading that decides; or what moves if one value is out */
export interface SuspectsRequest {
  verb: "suspects";
  book: BookText;
  options?: {
    /** A benchmark's point, or the id of a reading: what moves if it is out */
    trace?: string;
    /** By how much, booked less true. Default 10 mm */
    by?: Typed;
  };
}

/** Checks of instruments in a book: what they find, what they do not see, what later readings take over */
export interface TrialRequest {
  verb: "trial";
  book: BookText;
  options?: EvaluateOptions;
}

/** None in this version; unknown ones are passed over */
export type EvaluateOptions = Record<string, unknown>;

/** The fall between two readings, the best fit of more, or that of a line in a book */
export interface FallRequest {
  verb: "fall";
  book?: BookText;
  options: FallOptions;
}

export interface FallOptions {
  /** Staff readings, in order along the line */
  readings?: Typed[];
  /** Distance from the first reading to the last; may carry its own uncertainty ("54.88±0.05") */
  over?: Typed;
  /** One standard deviation of that distance */
  over_sd?: Typed;
  /** Chainage of each reading, instead of over */
  at?: Typed[];
  /** Gradient the instrument shows */
  shown?: Typed;
  /** How far the near point lies ahead of the laser */
  near?: Typed;
  unit?: Unit;
  /** A line of the book, instead of readings */
  line?: string;
  /** The surface on that line; default: the first that has two points */
  what?: string;
}

/** What to set on the laser, for a line of the book or a plane through points */
export interface DialRequest {
  verb: "dial";
  book: BookText;
  options: DialOptions;
}

export interface DialOptions {
  /** The set-up the laser stands in */
  setup: string;
  /** A line of the book */
  line?: string;
  /** A measured surface of the book: its best plane */
  surface?: string;
  /** Instead of a line: two points, or the plane that fits three and more best */
  points?: string[];
  /** With two points: rising to the right of the way from the first to the second; default level */
  crossfall?: Typed;
}

/** What the staff must read along a line of the book, and how deep to dig */
export interface SetoutRequest {
  verb: "setout";
  book: BookText;
  options: SetoutOptions;
}

export interface SetoutOptions {
  /** A line of the book */
  line: string;
  /** The set-up to work from; without one design levels and dig only */
  setup?: string;
  /** Interval between rows, in the book's unit where it names none; the line's own points always come */
  every?: Typed;
  /** Surfaces; default that of the profile */
  what?: string[];
  /** Of every and traveller, instead of the book's */
  unit?: Unit;
  /** Sight rails for a traveller of this length */
  traveller?: Typed;
  /** Rod card: the marks of all surfaces on one rod. Default: false. */
  rod?: boolean;
  /** Peg card: cuts from the pegs read beside the line. Default: false. */
  pegs?: boolean;
}

/** How sure levels will be, of what a book plans or of a layout proposed along a line; without a book by closed forms */
export interface PlanRequest {
  verb: "plan";
  book?: BookText;
  options?: PlanOptions;
}

/** Of a book: line, every, what, instrument, places, as_it_is. Without one: k, reading_sd, sd_per_m, tilt_sd, benchmark_sd, length, at, unit. Both: tolerance, temperature_difference */
export interface PlanOptions {
  /** A line of the book to plan for; needed where the book plans nothing */
  line?: string;
  /** Interval between stations; default 10 m or 30 ft; the line's own points always come */
  every?: Typed;
  /** Surface of the stations; default the first with a tolerance, else the one a staff is read on */
  what?: string;
  /** T of plus or minus T; default what the book asks for */
  tolerance?: Typed;
  /** Of proposed set-ups; default the first of the book */
  instrument?: string;
  /** Where the instrument may stand: points whose place is known, or chainages of the line ("40", "40 L3.5"); default beside the line */
  places?: string[];
  /** Judge the layout only; look for no better one. Default: false. */
  as_it_is?: boolean;
  /** Degrees between where the instrument was kept and the air */
  temperature_difference?: number;
  /** The tolerance is that many standard deviations. Default: 2. */
  k?: number;
  /** Default 1.2 mm */
  reading_sd?: Typed;
  /** Growth of it with the sight, per length; of an optical level */
  sd_per_m?: Typed;
  /** Of the light's plane, per length */
  tilt_sd?: Typed;
  /** Of each benchmark */
  benchmark_sd?: Typed;
  /** Of a run, or between two benchmarks */
  length?: Typed;
  /** How far a point lies from the first of two benchmarks */
  at?: Typed;
  unit?: Unit;
}

/** What one pipe carries, how fast, and what the rules of self-cleansing want of it; no book */
export interface DrainRequest {
  verb: "drain";
  options: DrainOptions;
}

export interface DrainOptions {
  /** Inside diameter; in metres a bare figure of 10 and more is millimetres, in feet one of 3 and more is refused */
  bore: Typed;
  /** Positive the way the water runs; without it a velocity or a flow finds it */
  fall?: Typed;
  /** For Colebrook-White; in metres a bare figure of 0.01 and more is millimetres */
  roughness?: Typed;
  /** n, instead of a roughness */
  manning?: number;
  /** Kinematic, m2/s; default: water of 20 degrees. Default: 1.007e-06. */
  viscosity?: number;
  /** Peak flow; a bare figure is cubic metres (feet) a second */
  flow?: Typed;
  /** For their peak foul flow, instead of a flow */
  dwellings?: number;
  /** Depth of water instead of a flow; "50 %" of the bore */
  depth?: Typed;
  /** Velocity to find the fall for: at the flow or depth given, else full bore */
  velocity?: Typed;
  /** WCs that drain to it, for the rules that ask */
  closets?: number;
  /** Rule of self-cleansing the job is held to */
  rule?: string;
  unit?: Unit;
}

/** The drains of a book in full, with their trench; or the pipe of least dig that would follow a line */
export interface DrainsRequest {
  verb: "drain";
  book: BookText;
  options?: DrainsOptions;
}

export interface DrainsOptions {
  /** That line only; default every line for use as a drain; needed with follow */
  line?: string;
  /** Set-up the staff readings are from; default the last one by time */
  setup?: string;
  /** Least cover over the crown: a length, or a preset such as cover-highway; default the book's rule */
  cover?: Typed;
  /** Rule of self-cleansing the job is held to */
  rule?: string;
  /** Of the trench at its bottom: a length, or a preset such as trench-astm-d2321; default the book's rule */
  width?: Typed;
  /** How far its sides lean out for 1 of depth */
  batter?: number;
  /** How far over the crown the surround goes; default 0.15 m */
  surround?: Typed;
  /** How much the dug ground bulks: 0.25, "25 %", or a preset such as bulking-clay-damp */
  spoil?: Typed;
  /** What one lorry takes, loose, in cubic units of the book */
  load?: number;
  /** The pipe of least dig under the line, by what follows. Default: false. */
  follow?: boolean;
  /** Least fall, positive the way the water runs; default by the rules the job is held to */
  fall_min?: Typed;
  /** Steepest fall; default none */
  fall_max?: Typed;
  /** Level that its lower end must not lie under; default an invert dipped there, else what a join fixes */
  outfall?: Typed;
  /** Level that its upper end must not lie over */
  inlet?: Typed;
  /** How many falls it may have. Default: 3. */
  grades?: number;
  /** Share of the dig that one grade more must save to be told. Default: 0.01. */
  saving?: number;
  /** Chainages where the fall may change; default the line's chambers, else where it was read */
  breaks?: Typed[];
  /** Default the line's first pipe's, as wall and bedding; in metres a bare figure of 10 and more is millimetres */
  bore?: Typed;
  wall?: Typed;
  bedding?: Typed;
  /** Surface to keep under; default finished where it was read, else ground */
  what?: string;
  /** Which way the water runs; default as the line says, else as the surface's ends fall */
  direction?: "with" | "against";
}

/** Drawings of a book, as SVG */
export interface FiguresRequest {
  verb: "report";
  book: BookText;
  options: FiguresOptions;
}

export interface FiguresOptions {
  figure: FigureName;
  /** Of a drawing of a line: that line only; default all */
  line?: string;
  /** Of a drawing of a measured surface: that one only; default all */
  surface?: string;
  /** Of the sheet, millimetres. Default: 174. */
  width?: number;
  /** Of the sheet, millimetres. Default: 250. */
  height?: number;
}

/** The record of a job to read, print and sign */
export interface ReportRequest {
  verb: "report";
  book: BookText;
  options?: ReportOptions;
}

export interface ReportOptions {
  /** Default: "full". */
  form?: "full" | "one-page";
  /** Default: "A4". */
  paper?: "A4" | "Letter";
  /** Default: "html". */
  as?: "html" | "text";
  /** SHA-256 of the book's bytes; without it the record says that it bears none */
  fingerprint?: string;
  /** Of the file, as the record names it */
  book_name?: string;
  /** When the record is made; without it no time is printed */
  made_at?: string;
}

/** A book as a file of another program. The shells answer it in front of the desk */
export interface ExportRequest {
  verb: "export";
  book: BookText;
  options: ExportOptions;
}

export interface ExportOptions {
  /** jsonl is the book itself; an open book does not hold its text, so whoever opened it hands that over */
  as: "csv" | "landxml" | "geojson" | "jsonl";
  /** Of csv. Default levels */
  table?: "levels" | "stations" | "setout" | "readings" | "falls";
  /** Of the table setout, which needs one; stations and falls of that line only */
  line?: string;
  /** Of the table setout */
  setup?: string;
  /** Of the table setout: interval between rows */
  every?: Typed;
  /** Of the table setout: surfaces */
  what?: string[];
}

/** A file of another program as entries of a book; without a book, of a new one. The shells answer it in front of the desk and add the entries */
export interface ImportRequest {
  verb: "import";
  book?: BookText;
  options: ImportOptions;
}

export interface ImportOptions {
  /** The text of the file */
  file: string;
  /** Its name, for remarks and sources */
  name?: string;
  /** Default: what its content says */
  as?: "csv" | "landxml" | "geojson";
  /** Of a new book */
  title?: string;
  /** Of a new book */
  datum?: string;
  /** Of a new book. Default: the file's */
  unit?: "m" | "ft";
  /** What the levels of a list of points are, where its columns do not say it */
  levels?: "known" | "wanted";
  /** Line that chainages of a sheet are of */
  line?: string;
  /** Surface read on that line, of a level book */
  what?: string;
  /** Of lines that say none */
  use?: "drain" | "road" | "kerb" | "slab" | "other";
  /** Of measured levels that say none. Default 10 mm, with a note */
  sd?: Typed;
  /** Name of the instrument of a level book */
  instrument?: string;
  /** Its type */
  type?: "rotating-laser" | "optical-level" | "pipe-laser";
  /** Day of the levelling */
  date?: string;
  /** Of columns that name none */
  sheet_unit?: "m" | "mm" | "cm" | "dm" | "ft" | "in";
}

/** The face of the staff around a reading, and how to read it */
export interface StaffRequest {
  verb: "staff";
  options: StaffOptions;
}

export interface StaffOptions {
  reading: Typed;
  unit?: Unit;
  /** Length of the staff */
  staff_length?: Typed;
  /** Default: false. */
  inverted?: boolean;
  /** How much of the face is drawn; default 30 blocks */
  window?: Typed;
  /** Default: "text". */
  style?: "text" | "svg";
  /** Text without block characters. Default: false. */
  ascii?: boolean;
}

// --- Answer to evaluate, version 1

/** Lengths, levels and their uncertainties are in the unit of the book, to 0.01 mm (feet: 5 decimals); gradients are rise per length to 1e-7; uncertainties are one standard deviation, a priori. null: not there or not determined. Arrays stand in order of first appearance in the book. A reader leaves out fields it does not know. */
export interface EvaluateAnswer {
  /** Version of this format */
  version: 1;
  unit: Unit;
  /** assumed: no benchmark, the first point read is 100.000 */
  datum: "stated" | "assumed";
  /** Tables used, with their edition */
  presets: Preset[];
  /** Adjusted level of every point */
  levels: Level[];
  /** The planes of light */
  setups: Setup[];
  /** The booked pages, in exact decimals */
  pages: Page[];
  /** Where a run meets a known level */
  closures: Closure[];
  adjustment: Adjustment;
  /** Every reading evaluated */
  readings: Reading[];
  /** What lies on the lines of work */
  lines: Line[];
  /** What to set on the laser */
  dials: Dial[];
  /** Station tables to work from */
  setout: Setout[];
  /** Of every line for use as a drain with pipes or chambers; left out where there is none */
  drains?: DrainRun[];
  /** Instrument checks; left out where the book has none */
  trials?: Trial[];
  /** What may have gone wrong, the most probable first */
  suspects?: Suspect[];
  /** Probability that nothing is wrong; it and all suspects add up to 1 */
  none?: number;
  /** Measured surfaces; left out where the book has none */
  surfaces?: Surface[];
  /** What must be said beside the figures */
  cautions: Caution[];
  /** What the tool noticed, in order of first appearance */
  findings: Finding[];
}

export interface Preset {
  name: string;
  edition: string;
  source: string;
  provenance: "published" | "from memory" | "common practice, no source";
}

export interface Level {
  point: string;
  /** A level, in the book's unit; null where nothing determines it */
  level: number | null;
  /** Of the level, relative to the benchmarks as given; null where nothing determines it */
  sd: number | null;
  /** How often it was read */
  readings: number;
  /** No single set-up or step carries it alone */
  checked: boolean;
}

export interface Setup {
  name: string;
  /** Level of the light at the instrument; without a place, at the first point read that has one */
  plane: number | null;
  /** One standard deviation; null where nothing determines it */
  sd: number | null;
  /** Gradient of the light itself along the main axis, rise per length: what was set, what the setting missed, tilt */
  main: number | null;
  /** One standard deviation; null where nothing determines it */
  main_sd: number | null;
  /** The same to the right */
  cross: number | null;
  /** One standard deviation; null where nothing determines it */
  cross_sd: number | null;
}

/** One run of set-ups joined by back and fore sights */
export interface Page {
  rows: PageRow[];
  /** Sum of back sights; null on sloped planes */
  sum_back: number | null;
  /** Sum of fore sights; null on sloped planes */
  sum_fore: number | null;
  /** Sum of rises; null on sloped planes */
  sum_rise: number | null;
  /** Sum of falls; null on sloped planes */
  sum_fall: number | null;
  /** First level */
  first: number | null;
  /** Last level */
  last: number | null;
  /** Back less fore, rise less fall and last less first are one and the same, exactly; null on sloped planes */
  agrees: boolean | null;
}

export interface PageRow {
  /** Entry of the reading; of the fore sight where a change point is one row */
  id: string;
  setup: string;
  point: string;
  /** Back sight */
  back: number | null;
  /** Intermediate sight */
  inter: number | null;
  /** Fore sight */
  fore: number | null;
  /** From the sight before */
  rise: number | null;
  /** From the sight before */
  fall: number | null;
  /** Height of collimation; on a sloped plane its level here */
  collimation: number | null;
  /** Reduced level as booked */
  level: number | null;
  /** The same with the misclosure shared out */
  adjusted: number | null;
  remark: string | null;
}

export interface Closure {
  /** Point the run began at */
  from: string;
  /** Known point it met, or its own start */
  to: string;
  /** How many set-ups lie between */
  setups: number;
  /** Length of the run; null where distances are not known */
  length: number | null;
  /** Found less known, exact */
  misclosure: number;
  /** Largest misclosure allowed */
  allowed: number | null;
  /** sets, km, model, or the preset's name */
  rule: string;
  /** Within what is allowed; null where that cannot be told */
  ok: boolean | null;
}

/** The least squares solution as a whole */
export interface Adjustment {
  /** Readings, steps, weighted benchmarks, gradients shown, and priors that some reading carries */
  observations: number;
  unknowns: number;
  /** Observations less rank */
  dof: number;
  /** sqrt(chi2 / dof); null at dof 0 */
  sigma0: number | null;
  chi2: number | null;
  /** 2.5 % limit */
  chi2_low: number | null;
  /** 97.5 % limit */
  chi2_high: number | null;
  /** chi2 is not over its high limit */
  ok: boolean | null;
}

export interface Reading {
  /** Its entry */
  id: string;
  /** Figure on the staff as booked, negative upside down */
  value: number | null;
  /** How far the point lies above the clamped plane, as booked: + is high; null without a clamp */
  off_plane: number | null;
  /** Booked less computed, in the sense of the staff; null where it is left out of the model */
  residual: number | null;
  /** Of the reading, a priori */
  sd: number | null;
  /** Residual in units of its own standard deviation; null where nothing checks it */
  w: number | null;
  /** How much the other readings check it, 0 to 1 */
  redundancy: number | null;
  /** Smallest slip that would show, a length; null where nothing checks it */
  detectable: number | null;
}

export interface Line {
  name: string;
  /** The straight line through each surface, at offset 0 */
  fits: Fit[];
  /** Every point measured on the line */
  stations: Station[];
  falls: Fall[];
  ponds: Pond[];
  /** For each surface with a tolerance, the joint probability that every station it tests is within */
  all_within: Record<string, number | null>;
  /** Of roads, kerbs and slabs */
  evenness: EvenRow[];
  /** Of roads, kerbs and slabs: chainages at which a surface was read at two offsets and more */
  sections: Section[];
}

/** Ordinary straight line of adjusted levels on chainage */
export interface Fit {
  what: string;
  /** Rise per length with chainage; negative falls */
  gradient: number | null;
  /** Of the gradient, from the joint covariance of the levels */
  sd: number | null;
  /** The same as 1 in N, N positive; null when level */
  one_in: number | null;
  word: Word | null;
  /** Level of the line at chainage 0 */
  level_at_0: number | null;
  /** How uneven: root mean square of what is off the fit */
  rms: number | null;
}

export interface Station {
  /** Chainage */
  ch: number;
  /** Offset, right positive */
  off: number;
  what: string;
  /** A level, in the book's unit; null where nothing determines it */
  level: number | null;
  /** One standard deviation; null where nothing determines it */
  sd: number | null;
  /** Design level of that surface there */
  design: number | null;
  /** Measured less design, high positive */
  deviation: number | null;
  /** Measured less the fitted line, high positive */
  off_fit: number | null;
  verdict: "within" | "outside" | "undecided" | "untested" | null;
  /** As measured, without uncertainty */
  plain: "within" | "outside" | null;
  /** That it truly is within */
  probability: number | null;
  /** What is there less the design of dig_to, positive to dig */
  dig: number | null;
  dig_to: string | null;
  /** Designed surfaces and how deep each lies under what is there, from the top down; negative: above it */
  below: ({
    what: string;
    depth: number | null;
  })[];
  /** Older surfaces here */
  earlier: ({
    point: string;
    /** A level, in the book's unit; null where nothing determines it */
    level: number | null;
    /** One standard deviation; null where nothing determines it */
    sd: number | null;
    deviation: number | null;
    /** When it was relaid */
    until: string | null;
  })[];
}

export interface Fall {
  /** Chainage */
  from: number;
  /** Chainage */
  to: number;
  what: string;
  span: "neighbour" | "pipe" | "chambers" | "line";
  /** Positive the way the water runs */
  gradient: number | null;
  /** One standard deviation; null where nothing determines it */
  sd: number | null;
  /** Positive the way the water runs */
  design: number | null;
  verdict: "within" | "outside" | "undecided" | "untested" | null;
  /** That it truly falls the other way; null where the design is level or absent */
  backfall_probability: number | null;
}

export interface Pond {
  /** Chainage */
  from: number;
  /** Chainage */
  to: number;
  depth: number;
  /** A probability, 4 decimals; null where there is nothing to compare */
  probability: number | null;
}

/** How even a surface is in one row: along the line at one offset, or across it at one chainage. Positions are chainages along, offsets across */
export interface EvenRow {
  what: string;
  direction: "along" | "across";
  /** Offset of a row along, chainage of one across */
  at: number;
  from: number;
  to: number;
  stations: number;
  /** The largest */
  spacing: number;
  /** About the row's own best straight line */
  off_straight: OffLine;
  /** About the design; null where a part of the row has none */
  off_design: OffLine | null;
  chords: Chord[];
  straightedge: GapCheck;
  /** Gaps by the distance of the high spots, design taken off; null where the tolerance has none */
  spots: GapCheck | null;
  irregularities: IrregularityCheck[];
  /** Of roads, along, for each stretch that was read closely enough */
  roughness: Roughness[];
  /** Why there is none, or none of a part */
  roughness_refused: string | null;
}

export interface OffLine {
  mean: number | null;
  rms: number | null;
  /** The largest, high positive */
  worst: number | null;
  /** Of the largest */
  sd: number | null;
  /** Where it is */
  at: number | null;
}

/** A reading above (+) or below (-) the straight between its two neighbours */
export interface Chord {
  at: number;
  /** Distance of the two neighbours */
  base: number;
  mid: number | null;
  /** One standard deviation; null where nothing determines it */
  sd: number | null;
  /** The same of the design */
  design: number | null;
}

export interface GapCheck {
  /** Length of the straightedge; null by distance */
  over: number | null;
  worst: Gap | null;
  /** Stretches of readings that are not within, each shown by its worst */
  places: Gap[];
  /** Why there is none */
  refused: string | null;
}

export interface Gap {
  /** Of the stretch */
  from: number;
  /** Of the stretch */
  to: number;
  at: number;
  /** High spot on which the straightedge rests */
  rests_from: number | null;
  /** The other one */
  rests_to: number | null;
  /** Below the straight between them; negative: above it */
  gap: number | null;
  /** One standard deviation; null where nothing determines it */
  sd: number | null;
  /** What of it the design itself has */
  design: number | null;
  limit: number | null;
  verdict: "within" | "outside" | "undecided" | "untested";
  plain: "within" | "outside" | null;
  /** A probability, 4 decimals; null where there is nothing to compare */
  probability: number | null;
}

/** Places off by size or more under the straightedge, in the worst stretch of that length */
export interface IrregularityCheck {
  size: number;
  length: number;
  /** How many are allowed */
  most: number;
  /** As measured */
  count: number;
  /** Each as sure as the confidence asks */
  surely: number;
  /** Not surely smaller */
  possibly: number;
  verdict: "within" | "outside" | "undecided" | "untested";
}

/** International roughness index of a stretch, m/km */
export interface Roughness {
  /** Chainage */
  from: number;
  /** Chainage */
  to: number;
  spacing: number;
  index: number | null;
  /** One standard deviation; null where nothing determines it */
  sd: number | null;
  /** Index that a perfectly even road would show to these readings */
  noise: number | null;
  /** Root of index squared less noise squared; null where noise is all there is */
  without_noise: number | null;
  /** Of a level, what it does not share with its neighbours; a length */
  level_sd: number | null;
  /** Error of the index at most 2 % (1), 5 % (2); null: more */
  class: 1 | 2 | null;
  /** Resolution of the staff that class 1 and 2 ask for here, a length; from memory */
  asks: [number, number];
}

/** A cross-section as laid, from left to right */
export interface Section {
  /** Chainage */
  ch: number;
  what: string;
  points: SectionPoint[];
  slopes: SectionSlope[];
}

export interface SectionPoint {
  /** Right positive */
  off: number;
  /** A level, in the book's unit; null where nothing determines it */
  level: number | null;
  /** One standard deviation; null where nothing determines it */
  sd: number | null;
  /** A level, in the book's unit; null where nothing determines it */
  design: number | null;
  /** Measured less design, high positive */
  deviation: number | null;
  verdict: "within" | "outside" | "undecided" | "untested";
}

/** Between two neighbours of a section, rising to the right */
export interface SectionSlope {
  /** Offset */
  from: number;
  /** Offset */
  to: number;
  gradient: number | null;
  /** One standard deviation; null where nothing determines it */
  sd: number | null;
  design: number | null;
}

export interface Dial {
  setup: string;
  /** null for a surface */
  line: string | null;
  /** A measured surface whose best plane it is; null for a line */
  surface: string | null;
  /** Chainage */
  from: number | null;
  /** Chainage */
  to: number | null;
  /** Of a line with a camber one plane holds on one side */
  side: "both" | "left" | "right";
  /** Exact, rising along main */
  main: number | null;
  /** Exact, rising to the right */
  cross: number | null;
  /** In the machine's sign and unit, rounded to its step */
  main_shown: number | null;
  /** In the machine's sign and unit, rounded to its step */
  cross_shown: number | null;
  shown_unit: ShownUnit;
  /** Bearing for the main axis, degrees: the set-up's own, else along the line */
  aim: number | null;
  /** What half a step costs at the farthest point, a length */
  rounding_cost: number | null;
  /** What one degree of aim costs at the farthest point, a length */
  aim_cost_per_degree: number | null;
  /** Within the machine's limits and range */
  reachable: boolean;
  /** null where no placed point of known level is in the light */
  proof: DialProof | null;
}

/** Unit of the machine's own figures */
export type ShownUnit = "%" | "permille";

/** The reading that proves the plane once it is set */
export interface DialProof {
  point: string;
  staff: number | null;
  /** Of the reading to expect, its own noise and the staff's foot included */
  sd: number | null;
}

/** A measured surface */
export interface Surface {
  name: string;
  /** Its points inside the outline */
  points: SurfacePoint[];
  /** 0 where no surface can be made; findings say why */
  triangles: number;
  /** In plan, in squares of the book's unit */
  area: number | null;
  lowest: SurfaceEnd | null;
  highest: SurfaceEnd | null;
  /** The plane that fits best; null where the points lie on one line */
  plane: SurfacePlane | null;
  /** One for each that the surface is held against, as far as it can be told */
  volumes: SurfaceVolume[];
  /** false: kerbed all round without an outlet, or no surface; no ponds are told */
  drains: boolean;
  /** Where water would stand, a millimetre deep or more, the deepest first */
  ponds: SurfacePond[];
  /** How many more there are */
  ponds_more: number;
  /** One for each criterion of the tables named */
  flatness: SurfaceFlatness[];
  /** By rising level, where the surface asks for them */
  contours: SurfaceContour[];
  /** At the corners of a grid, where a want of the surface has an interval */
  levels: SurfaceLevel[];
}

export interface SurfaceContour {
  level: number;
  /** The last point is joined to the first, which is not repeated */
  closed: boolean;
  /** [east, north]; higher ground to the left */
  line: [number, number][];
}

export interface SurfaceLevel {
  e: number;
  n: number;
  level: number;
  /** null beyond the first 2,000 */
  sd: number | null;
}

export interface SurfacePoint {
  point: string;
  e: number;
  n: number;
  /** A level, in the book's unit; null where nothing determines it */
  level: number | null;
  /** One standard deviation; null where nothing determines it */
  sd: number | null;
  /** Level less best plane, high positive */
  off_plane: number | null;
}

export interface SurfaceEnd {
  point: string;
  /** A level, in the book's unit; null where nothing determines it */
  level: number | null;
}

export interface SurfacePlane {
  /** The middle of the points, where the plane is known best */
  e: number;
  n: number;
  /** There */
  level: number | null;
  /** One standard deviation; null where nothing determines it */
  sd: number | null;
  /** Rise per length towards east */
  east: number;
  /** One standard deviation; null where nothing determines it */
  east_sd: number | null;
  /** Rise per length towards north */
  north: number;
  /** One standard deviation; null where nothing determines it */
  north_sd: number | null;
  /** Of the steepest fall */
  gradient: number;
  /** null of a level plane */
  gradient_sd: number | null;
  /** Of the steepest fall; null below 1e-7 */
  one_in: number | null;
  /** Bearing of the steepest fall, degrees; null of a level plane */
  falls_to: number | null;
  /** Of main, degrees */
  bearing: number;
  /** Rise per length along the bearing */
  main: number;
  /** One standard deviation; null where nothing determines it */
  main_sd: number | null;
  /** Rise per length to its right */
  cross: number;
  /** One standard deviation; null where nothing determines it */
  cross_sd: number | null;
  /** Of what lies off the plane */
  rms: number;
  high: SurfaceOff;
  low: SurfaceOff;
}

export interface SurfaceOff {
  point: string;
  /** Level less best plane */
  off: number;
  /** One standard deviation; null where nothing determines it */
  sd: number | null;
}

export interface SurfaceVolume {
  /** As the book calls what the surface is held against */
  name: string | null;
  /** Another surface; null for a level or a plane */
  surface: string | null;
  /** Of the level, or of the plane at its place */
  level: number | null;
  /** So much under it */
  by: number;
  /** Over which it is worked out, in plan */
  area: number | null;
  /** To dig, a volume in cubes of the book's unit */
  cut: number | null;
  /** First order, from the levels */
  cut_sd: number | null;
  /** To fill */
  fill: number | null;
  /** One standard deviation; null where nothing determines it */
  fill_sd: number | null;
  /** cut - fill */
  net: number | null;
  /** One standard deviation; null where nothing determines it */
  net_sd: number | null;
  /** In plan */
  cut_area: number | null;
  /** In plan */
  fill_area: number | null;
  /** Taken off all over before; not in cut */
  strip: number | null;
  /** What is cut, once dug: cut (1 + bulking) */
  loose: number | null;
  /** cut - fill / (1 - shrinkage), in the bank; negative: to be brought */
  surplus: number | null;
  /** One standard deviation; null where nothing determines it */
  surplus_sd: number | null;
  balance: SurfaceBalance | null;
  /** Point by point, in the order of points */
  digs: SurfaceDig[];
}

/** What would balance cut and fill */
export interface SurfaceBalance {
  /** So much higher it would have to lie for nothing to be left over */
  raised: number;
  /** One standard deviation; null where nothing determines it */
  sd: number | null;
  /** The level that is; null for another surface */
  level: number | null;
  /** Then */
  cut: number | null;
  /** Then */
  fill: number | null;
}

export interface SurfaceDig {
  point: string;
  /** Positive to dig; null where the other surface does not reach */
  dig: number | null;
  /** One standard deviation; null where nothing determines it */
  sd: number | null;
}

export interface SurfacePond {
  low: SurfaceCorner;
  /** Where it spills; its level is that of the water */
  sill: SurfaceCorner;
  depth: number;
  /** Of the depth */
  sd: number | null;
  /** That the sill is truly the higher one */
  probability: number | null;
  /** Of the water */
  area: number | null;
  /** Of the water */
  volume: number | null;
  /** One standard deviation; null where nothing determines it */
  volume_sd: number | null;
}

export interface SurfaceCorner {
  /** null in the middle of a cell */
  point: string | null;
  e: number;
  n: number;
  level: number;
}

export interface SurfaceFlatness {
  preset: string;
  provenance: "published" | "from memory" | "common practice, no source";
  rule: "straightedge" | "difference" | "change";
  checks: number;
  /** As measured */
  outside: number;
  /** Of all checks that must be within */
  share: number;
  /** Base looked at */
  longest: number | null;
  /** Longest base that was looked at for their number; null: all of the table's */
  reach: number | null;
  /** Largest share of its limit */
  worst: SurfaceCheck | null;
  /** As measured */
  plain: "within" | "outside" | null;
  /** That truly all are within; null without a verdict */
  probability: number | null;
  /** untested: a table from memory, or nothing to check */
  verdict: "within" | "outside" | "undecided" | "untested";
}

export interface SurfaceCheck {
  /** Two, or three with the middle one second */
  points: string[];
  base: number;
  /** Of a hump positive */
  value: number;
  /** One standard deviation; null where nothing determines it */
  sd: number | null;
  limit: number;
}

export interface Setout {
  setup: string | null;
  line: string;
  rows: ({
    /** Chainage */
    ch: number;
    /** Offset, right positive */
    off: number;
    what: string;
    /** A level, in the book's unit; null where nothing determines it */
    design: number | null;
    /** Upright staff reading to work to */
    target: number | null;
    /** One standard deviation; null where nothing determines it */
    sd: number | null;
    /** What is there less dig_to: positive to dig */
    dig: number | null;
    /** One standard deviation; null where nothing determines it */
    dig_sd: number | null;
    /** The surface to dig or fill to */
    dig_to: string | null;
    /** From the higher edge read down to the trench bottom */
    trench_depth: number | null;
    /** One standard deviation; null where nothing determines it */
    trench_depth_sd: number | null;
    /** Chamber cover, else ground, above the crown; negative: the pipe stands out */
    cover: number | null;
  })[];
}

/** A run of drains */
export interface DrainRun {
  line: string;
  /** The one the staff readings are from */
  setup: string | null;
  /** Which way the water runs, by chainage */
  flow: "with" | "against";
  /** null: no rule asks for any */
  cover: DrainCover | null;
  pipes: DrainPipe[];
  flats: DrainFlat[];
  kinds: DrainKind[];
  chambers: DrainChamber[];
  joins: DrainJoin[];
  dips: DrainDip[];
  stations: DrainStation[];
}

export interface Trial {
  name: string;
  instrument: string;
  /** Of an optical level, length per length */
  collimation?: number | null;
  /** One standard deviation; null where nothing determines it */
  collimation_sd?: number | null;
  /** Of a laser, length per length; null where it is not seen */
  cone?: number | null;
  /** One standard deviation; null where nothing determines it */
  cone_sd?: number | null;
  /** Main and cross, length per length */
  tilt?: (number | null)[] | null;
  tilt_sd?: (number | null)[] | null;
  /** Errors this check can see: collimation, cone, tilt; tilt main or tilt cross where it is one of the two */
  sees: string[];
  /** Errors it cannot see */
  blind_to: string[];
  /** 30 (|cone or collimation| + steepest tilt) of what is seen, a length */
  at_30_m: number | null;
  /** null where nothing is seen */
  passes: boolean | null;
}

export type SuspectKind =
  | "misread"
  | "digits-swapped"
  | "offset-reversed"
  | "offset-omitted"
  | "staff-inverted"
  | "staff-section"
  | "wrong-point"
  | "wrong-setup"
  | "wrong-benchmark"
  | "moved-change-point"
  | "grade-left-in"
  | "grade-reversed"
  | "axes-swapped"
  | "aim-off"
  | "knocked"
  | "settling"
  | "instrument-out"
  | "wrong-distance"
  | "other-beam";

export interface Accused {
  kind: SuspectKind;
  /** Readings, set-ups, axes, points or instruments, by kind */
  about: string[];
}

/** The reading that decides */
export interface DecidingReading {
  /** The set-up that still stands; null: a new one */
  setup: string | null;
  point: string;
  /** From a new set-up: read this point too; staff is then point less from */
  from?: string;
  /** 1: one reading from the set-up that stands; 5: a new set-up */
  effort: number;
  predicts: ({
    /** none: nothing is wrong */
    kind: SuspectKind | "none";
    about: string[];
    staff: number | null;
    /** One standard deviation; null where nothing determines it */
    sd: number | null;
  })[];
}

export interface Suspect {
  kind: SuspectKind;
  about: string[];
  /** Booked less true; null where it is another name only. A length, but for grades (rise per length), factors, angles (radians) and rates (length a minute) */
  size: number | null;
  /** 0 where the size is one of a few known ones */
  size_sd: number | null;
  /** A probability, 4 decimals */
  probability: number;
  /** Explanations the readings cannot tell from this one */
  alike: Accused[];
  /** A second blunder beside it, where one leaves too much */
  with?: {
    kind: SuspectKind;
    about: string[];
    size: number | null;
    /** One standard deviation; null where nothing determines it */
    size_sd: number | null;
  };
  /** What happened, with its size, and the misfit before and after */
  why: string;
  /** The reading that decides; null where none does any more */
  settle_by: DecidingReading | null;
  /** Where no reading decides, or one only shows once more that something is wrong: what to do to be safe */
  redo?: string;
}

// --- Answer to levels, version 1

/** The parts of evaluate's answer that a level book shows, under the same names */
export interface LevelsAnswer {
  /** Version of this format */
  version: 1;
  unit: Unit;
  datum: "stated" | "assumed";
  presets?: Preset[];
  levels: Level[];
  pages?: Page[];
  closures?: Closure[];
  /** What the tool noticed, in order of first appearance */
  findings: Finding[];
}

// --- Answer to check, version 1

/** What was laid on the lines and surfaces of a book, judged: evaluate's parts under the same names */
export interface CheckAnswer {
  /** Version of this format */
  version: 1;
  unit: Unit;
  datum: "stated" | "assumed";
  presets?: Preset[];
  lines: Line[];
  /** Left out where the book has none */
  surfaces?: Surface[];
  /** What the tool noticed, in order of first appearance */
  findings: Finding[];
}

// --- Answer to trial, version 1

/** Checks of instruments on site; no calibration certificate. Errors are length per length, other figures lengths in the book's unit */
export interface TrialAnswer {
  /** Version of this format */
  version: 1;
  unit: Unit;
  /** Each check in full */
  trials: Check[];
  /** What readings take over from all checks of an instrument and its entry together */
  instruments: CheckedInstrument[];
  /** What the tool noticed, in order of first appearance */
  findings: Finding[];
}

/** As in evaluate, and more */
export interface Check {
  name: string;
  instrument: string;
  collimation?: number | null;
  /** One standard deviation; null where nothing determines it */
  collimation_sd?: number | null;
  cone?: number | null;
  /** One standard deviation; null where nothing determines it */
  cone_sd?: number | null;
  /** Main and cross */
  tilt?: (number | null)[] | null;
  tilt_sd?: (number | null)[] | null;
  sees: string[];
  blind_to: string[];
  at_30_m: number | null;
  passes: boolean | null;
  /** One standard deviation; null where nothing determines it */
  at_30_m_sd: number | null;
  /** At 30 m */
  limit: number;
  /** Of the readings with the instrument between the same adjustments */
  longest_sight: number | null;
  /** What the errors seen come to there, left uncorrected */
  at_longest_sight: number | null;
  /** One standard deviation; null where nothing determines it */
  at_longest_sight_sd: number | null;
  /** The tightest tolerance of levels in the book */
  tolerance: number | null;
  /** At the longest sight more than a third (1/3.3) of that tolerance */
  matters: boolean | null;
  /** false: the check counts for nothing */
  consistent: boolean;
  /** Time of the entry */
  checked_on: string | null;
  checked_by: string | null;
  scatter: Scatter;
  /** Those that could be used */
  shots: ShotFit[];
}

/** How the shots agree, after the pattern of ISO 17123-2 and -6 */
export interface Scatter {
  /** How many shots more than needed */
  dof: number;
  chi2: number;
  /** One sd of a reading by these shots */
  found: number | null;
  /** One sd of a reading as the instrument's entry says, or assumed */
  stated: number | null;
  /** found is more than this by chance in one check of 20 */
  limit: number | null;
  /** From shot to shot in the order of the entry */
  drift: number | null;
  /** One standard deviation; null where nothing determines it */
  drift_sd: number | null;
}

export interface ShotFit {
  station: string;
  peg: string;
  /** A length over 0, in the book's unit */
  dist: number;
  facing: number | null;
  turn: string | null;
  /** As booked; negative: inverted */
  value: number;
  /** What it should have read: errors seen and curvature taken off */
  corrected: number;
  /** Booked less computed */
  residual: number;
  /** One standard deviation, in the unit of what it belongs to; 0 switches the effect off */
  sd: number;
  /** Residual over its own sd; null where nothing checks the shot */
  w: number | null;
  redundancy: number;
}

export interface CheckedInstrument {
  name: string;
  /** How often it had been adjusted before these readings */
  adjusted_before: number;
  /** Names of the checks that count */
  checks: string[];
  collimation?: number | null;
  /** One standard deviation; null where nothing determines it */
  collimation_sd?: number | null;
  cone?: number | null;
  /** One standard deviation; null where nothing determines it */
  cone_sd?: number | null;
  /** Main and cross */
  tilt?: (number | null)[] | null;
  tilt_sd?: (number | null)[] | null;
}

// --- Answer to suspects, version 1

/** What probably went wrong and the reading that decides; with the option trace, what moves if one value is out */
export type SuspectsAnswer = Suspicions | Traced;

export interface Suspicions {
  /** Version of this format */
  version: 1;
  unit: Unit;
  datum: "stated" | "assumed";
  presets?: Preset[];
  adjustment: Adjustment;
  suspects: Suspect[];
  /** Probability that nothing is wrong */
  none: number;
  /** What would not have shown */
  not_noticed: {
    /** Readings that no other checks */
    lone_sights: number;
    /** Of each kind, where it shows least, and the size from which it would show (0.1 % significance, 80 % power); null: never */
    smallest: ({
      kind: SuspectKind;
      about: string[];
      size: number | null;
    })[];
  };
  /** null where the first point of the set-up was read last, or cannot be told */
  before_lifting: BeforeLifting | null;
  /** What the tool noticed, in order of first appearance */
  findings: Finding[];
}

/** What to read before the tripod is lifted, and what a difference would mean: off by more than limit, something moved */
export interface BeforeLifting {
  setup: string;
  point: string;
  staff: number | null;
  /** One standard deviation; null where nothing determines it */
  sd: number | null;
  limit: number | null;
}

export interface Traced {
  /** Version of this format */
  version: 1;
  unit: Unit;
  /** What moves if the value of a benchmark, or the figure of a reading, is out */
  trace: {
    /** Point of the benchmark, or id of the reading */
    name: string;
    /** Booked less true */
    by: number;
    /** How far each level would move; points that do not are left out */
    moves: {
      point: string;
      by: number;
    }[];
    /** Stations whose verdict would be another */
    verdicts: ({
      line: string;
      ch: number;
      off: number;
      what: string;
      before: "within" | "outside" | "undecided" | "untested";
      after: "within" | "outside" | "undecided" | "untested";
      deviation_before: number | null;
      deviation_after: number | null;
    })[];
  };
}

// --- Answer to fall, version 1

/** The fall between two readings, or the best fit of more */
export interface FallAnswer {
  /** Version of this format */
  version: 1;
  unit: Unit;
  /** The line of the book; null for readings typed */
  line: string | null;
  /** The surface fitted; null for readings typed */
  what: string | null;
  readings: FallReading[];
  /** Level of the last point less that of the first: negative falls */
  difference: number | null;
  /** One standard deviation; null where nothing determines it */
  difference_sd: number | null;
  /** Distance from the first reading to the last */
  over: number | null;
  /** One standard deviation; null where nothing determines it */
  over_sd: number | null;
  /** null without a distance */
  gradient: GradientWritten | null;
  /** How uneven: root mean square of what is off the fit */
  rms: number | null;
  /** The reading farthest off the fit; null for two readings */
  worst: FallReading | null;
  /** The mark that both points read once the plane is tilted to the ground; null unless near was given */
  one_pass_mark: number | null;
  /** Readings and distance against what the instrument shows; null where it was not given */
  check: FallCheck | null;
  /** What the tool noticed, in order of first appearance */
  findings: Finding[];
}

export interface FallReading {
  /** Chainage */
  at: number | null;
  /** Figure on the staff */
  staff: number | null;
  /** How far the point lies above the fitted line; null for two readings typed */
  off_fit: number | null;
}

/** One gradient, in every way the trade writes it */
export interface GradientWritten {
  /** Rise per length; negative falls */
  ratio: number;
  /** Rise per length */
  sd: number | null;
  /** 1 in N, N positive; null when level */
  one_in: number | null;
  word: Word;
  percent: number;
  permille: number;
  degrees: number;
}

export interface FallCheck {
  /** Within 1.96 standard deviations */
  agrees: boolean;
  /** Gradient of readings and distance less the gradient shown */
  disagreement: number | null;
  /** Of that difference */
  sd: number | null;
  explanations: FallExplanation[];
}

/** What would make the three agree */
export interface FallExplanation {
  kind: "distance" | "reading" | "shown" | "pivoting-head";
  sentence: string;
  /** What it would have to be: the distance, the difference of the readings, the gradient shown, or how far the near point lies ahead of the laser */
  wanted: number;
  /** How much it is off then; for pivoting-head how far the plane passes above the mark at the near point */
  size: number;
}

// --- Answer to dial, version 1

/** What to set on the laser: one for each stretch of the line that is one plane, or one for the plane through points */
export interface DialAnswer {
  /** Version of this format */
  version: 1;
  unit: Unit;
  /** Empty where nothing can be set; findings say why */
  dials: DialSetting[];
  /** What the tool noticed, in order of first appearance */
  findings: Finding[];
}

export interface DialSetting {
  setup: string;
  /** null for a plane through points */
  line: string | null;
  /** A measured surface whose best plane it is */
  surface: string | null;
  /** Chainage */
  from: number | null;
  /** Chainage */
  to: number | null;
  /** Of a line with a camber one plane holds on one side */
  side: "both" | "left" | "right";
  /** The points the plane goes through; empty for a line */
  points: string[];
  /** Exact, rising along main */
  main: number;
  /** Exact, rising to the right */
  cross: number;
  /** In the machine's sign and unit, rounded to its step; null beyond its limit */
  main_shown: number | null;
  /** The same of the cross axis, counted to the machine's own side */
  cross_shown: number | null;
  shown_unit: ShownUnit;
  /** Bearing for the main axis, degrees; null for a level plane of a set-up without bearing */
  aim: number | null;
  /** What half a step costs at the farthest point, a length */
  rounding_cost: number | null;
  /** What one degree of aim costs at the farthest point, a length */
  aim_cost_per_degree: number | null;
  /** Within the machine's limits and range */
  reachable: boolean;
  proof: DialProof | null;
  /** Uncertainty of both grades of a plane that was found; 0 of one designed */
  sd: Grades;
  /** What the plane is once that is keyed in, rising along main and to the right */
  set: Grades;
  /** The set-up's plane in the book; null on a matched axis */
  in_book: Grades;
  /** That plane is the one wanted, within a step */
  as_in_book: boolean;
  /** The set-up in the book has no bearing: aim is advice */
  aim_advised: boolean;
  /** Distance from the laser to the farthest point */
  farthest: number | null;
  /** Two points read on the flat plane of that set-up */
  take_up: TakeUp | null;
  /** What to do at the machine, in the order of the work */
  card: string[];
}

/** Rise per length */
export interface Grades {
  main: number | null;
  cross: number | null;
}

/** Once the plane is set both points read the mark */
export interface TakeUp {
  /** The point nearer to the laser: read it again */
  near: string;
  far: string;
  /** A length */
  mark: number;
}

// --- Answer to setout, version 1

/** What the staff must read along a line, how deep to dig, and the cards that go with it. A card is null where it was not asked for. */
export interface SetoutAnswer {
  /** Version of this format */
  version: 1;
  unit: Unit;
  line: string;
  /** null: design levels and dig only */
  setup: string | null;
  /** The table, as evaluate has it */
  setout: Setout[];
  /** Surfaces whose rows all have one target: the plane runs parallel to the line */
  one_targets: OneTarget[];
  /** One card for each run of equal pipes */
  rod: RodCard[] | null;
  /** By chainage, from left to right */
  pegs: PegCut[] | null;
  /** Its length */
  traveller: number | null;
  /** By chainage */
  rails: SightRail[] | null;
  /** What must be said beside the figures */
  cautions: Caution[];
  /** What the tool noticed, in order of first appearance */
  findings: Finding[];
}

export interface OneTarget {
  what: string;
  /** Offset, right positive */
  off: number;
  /** The middle of the rows' targets */
  target: number;
  /** By how much they differ */
  spread: number;
}

export interface RodCard {
  /** Chainage */
  from: number;
  /** Chainage */
  to: number;
  /** From the foot up */
  marks: ({
    what: string;
    /** Of the mark above the rod's foot */
    height: number;
    /** Where the receiver stays with the foot on that surface; null where the light does not run parallel to the line */
    clamp: number | null;
  })[];
  /** Of a clamp */
  sd: number | null;
  /** By how much the targets of the profile differ over the stretch */
  spread: number | null;
}

export interface PegCut {
  point: string;
  /** Chainage */
  ch: number;
  /** Offset, right positive */
  off: number;
  /** The surface it is cut to */
  what: string;
  /** Of the peg's top */
  level: number;
  design: number;
  /** Peg less design, negative to fill */
  cut: number;
  /** One standard deviation; null where nothing determines it */
  sd: number | null;
  /** From the line on the peg to the surface: a whole tenth */
  whole: number;
  /** The line below the peg's top */
  line_down: number;
}

export interface SightRail {
  /** Chainage */
  ch: number;
  /** The surface it serves */
  what: string;
  /** Design and traveller */
  level: number;
  above_ground: number | null;
  above_pegs: {
    point: string;
    height: number;
  }[];
}

// --- Answer to plan, version 1

/** How sure levels will be before anyone goes out. Of a book, or without one by closed forms. */
export type PlanAnswer = PlanOfBook | QuickPlan;

/** What a layout is worth before anyone goes out, and what would better it */
export interface PlanOfBook {
  /** Version of this format */
  version: 1;
  unit: Unit;
  /** The book plans nothing here: the layout is the program's */
  proposed: boolean;
  /** Benchmarks read in it: every sd is relative to them as given */
  relative_to: string[];
  /** With which a tolerance must hold to be proved */
  confidence: number;
  plan: PlannedLayout;
  /** The best of each kind of change by itself, the largest gain first */
  alone: PlanStep[];
  /** One after the other, each upon those before it */
  steps: PlanStep[];
  /** After all steps; null where there is none */
  better: PlannedLayout | null;
  /** Layouts solved */
  tried: number;
  /** Minutes the instrument should stand before the first reading; null where no temperature difference was given */
  warm_up: number | null;
  /** Keep the light that far from the ground */
  beam_clearance: number;
  /** What the tool noticed, in order of first appearance */
  findings: Finding[];
}

export interface PlannedLayout {
  /** The largest sd of a station, weighed by its tolerance: one with twice the tightest counts half */
  worst: number | null;
  worst_point: string | null;
  /** Of the stations' sds, weighed alike */
  mean: number | null;
  /** A reading 1, a set-up 5 */
  effort: number;
  setups: PlannedSetup[];
  /** Proposed ones, midway between the set-ups that read them */
  change_points: PlannedChangePoint[];
  readings: PlannedReading[];
  stations: PlannedStation[];
  falls: PlannedFall[];
}

/** On the grid, or along a line that has a frame of its own */
export type PlannedPlace = {
  /** East */
  e: number;
  /** North */
  n: number;
} | {
  line: string;
  /** Chainage */
  ch: number;
  /** Offset, right positive */
  off: number;
};

export interface PlannedSetup {
  name: string;
  /** Not in the book, or not there */
  proposed: boolean;
  /** null where it is not known */
  place: PlannedPlace | null;
  /** Of the main axis, degrees clockwise from grid north (or from the line's chainage) */
  bearing: number | null;
  /** The body is turned half round from what the book says, or from along the line */
  half_round: boolean;
  readings: number;
  /** Sight */
  shortest: number | null;
  /** Sight */
  longest: number | null;
  /** Between the lowest and the highest level it reads, as known or wanted; null on a slope */
  spread: number | null;
  /** How much the longest sight reads too much against the shortest one over hot ground; in no sd */
  hot_ground: number | null;
}

export interface PlannedChangePoint {
  name: string;
  /** Midway */
  place: PlannedPlace | null;
}

export interface PlannedReading {
  /** null: proposed */
  id: string | null;
  setup: string;
  point: string;
  /** null: the assumed sight */
  dist: number | null;
  /** One standard deviation; null where nothing determines it */
  sd: number | null;
  /** A probability, 4 decimals */
  redundancy: number;
  /** The least slip that would show; null: none would */
  detectable: number | null;
  /** Where no slip would show: the one more reading that changes that */
  cure: PlannedCure | null;
}

export interface PlannedCure {
  setup: string;
  point: string;
  /** A reading that is planned already, once more */
  again: boolean;
  /** The least slip that then shows */
  detectable: number | null;
}

export interface PlannedStation {
  point: string;
  line: string | null;
  /** Chainage */
  ch: number | null;
  /** Offset, right positive */
  off: number | null;
  what: string | null;
  /** null where it hangs on nothing */
  sd: number | null;
  /** Tolerance, negative; null: open */
  below: number | null;
  /** Tolerance; null: open */
  above: number | null;
  /** half: half the tolerance and more is left to the builder; narrow: it can be proved where it is built closer; nothing: it cannot be proved; one-sided: only the guard can be told; null: no tolerance */
  proof: "half" | "narrow" | "nothing" | "one-sided" | null;
  /** How far off the middle of the tolerance a level can still be proved */
  margin: number | null;
  /** How far inside a limit a measured level must lie */
  guard: number | null;
}

export interface PlannedFall {
  line: string;
  what: string;
  /** Of the gradient through all stations of the surface at offset 0 */
  sd: number | null;
}

export interface PlanStep {
  change: "read-again" | "read-all-again" | "half-round" | "benchmark" | "other-setup" | "change-point" | "move-setup" | "add-setup" | "remove-setup";
  /** Set-ups it concerns; of a new one the first */
  setups: string[];
  /** Points it concerns */
  points: string[];
  /** Where a set-up comes to stand */
  place: PlannedPlace | null;
  /** More than before; negative: less */
  effort: number;
  worst_gain: number | null;
  mean_gain: number | null;
  /** After it */
  worst: number | null;
  /** After it */
  mean: number | null;
}

/** Without a book: closed forms */
export interface QuickPlan {
  /** Version of this format */
  version: 1;
  unit: Unit;
  /** With which anything at all of the tolerance can be proved */
  largest_sd: number | null;
  /** With which half of it is left to the builder */
  half_sd: number | null;
  /** From a benchmark to a point; null: at no distance, or at any */
  longest_distance: number | null;
  /** Of an optical level; null: at no sight, or at any */
  longest_balanced_sight: number | null;
  /** Of each end, to meet the tolerance close by; 0: no number does */
  readings_to_average: number | null;
  /** Set-ups one after the other over a length, turned half round alternately, sights balanced */
  run: QuickRun | null;
  two_benchmarks: QuickBetween | null;
  /** Minutes */
  warm_up: number | null;
}

export interface QuickRun {
  /** Number of set-ups, no whole one */
  best: number | null;
  /** At the end, with it */
  best_sd: number | null;
  /** Length of a bay with it */
  best_bay: number | null;
  /** Half of that */
  best_sight: number | null;
  /** The best whole number */
  setups: number;
  /** At the end */
  sd: number | null;
  by_setups: QuickRunOf[];
}

export interface QuickRunOf {
  setups: number;
  /** One standard deviation; null where nothing determines it */
  sd: number | null;
}

/** A point between two benchmarks read in one set-up, its own reading included */
export interface QuickBetween {
  /** From the first benchmark alone */
  one: number | null;
  /** From both, nothing believed of the tilt */
  free: number | null;
  /** From both */
  both: number | null;
}

// --- Answer to drain, version 1

/** What one pipe carries at one fall, and what the rules of self-cleansing want of it. Lengths, areas, velocities (a second) and flows (cubed, a second) in the unit; falls positive the way the water runs; drag in N/m2 */
export interface DrainAnswer {
  /** Version of this format */
  version: 1;
  unit: Unit;
  /** Inside diameter, as understood */
  bore: number;
  /** Rise per length, without unit */
  fall: number;
  /** 1 in N, N positive; null when level */
  one_in: number | null;
  /** Whether the fall was given, or found for a velocity or a flow */
  fall_from: "given" | "velocity" | "flow";
  law: "colebrook-white" | "manning";
  /** A length; null by Manning */
  roughness: number | null;
  /** n, s/m^(1/3); null by Colebrook-White */
  manning: number | null;
  /** Kinematic, m2/s; null by Manning */
  viscosity: number | null;
  /** The flow asked about; null without one */
  flow: number | null;
  /** WCs that drain to it; null where not told */
  closets: number | null;
  /** Full bore */
  full: FlowState;
  /** At the depth that carries most, about 0.94 of the bore */
  greatest_flow: FlowState;
  /** At the depth at which the water runs fastest, 0.813 of the bore */
  greatest_velocity: FlowState;
  /** At the flow (the lower of its depths) or the depth asked about; null without one, and where the pipe cannot carry it */
  part: FlowState | null;
  /** The same flow at its other depth; null where it has one only */
  upper: FlowState | null;
  critical: CriticalState | null;
  /** Fall of the pressure line under which the pipe would carry the flow full; null where it flows freely */
  pressure_fall: number | null;
  /** The rule asked for by name */
  held_to: string | null;
  rules: RulesHeld;
  /** What must be said beside the figures */
  cautions: Caution[];
  /** What the tool noticed, in order of first appearance */
  findings: Finding[];
}

/** Steady, uniform flow at one depth */
export interface FlowState {
  /** A length of 0 or more, in the book's unit */
  depth: number;
  /** Depth over bore */
  proportion: number;
  velocity: number;
  flow: number;
  /** Wet section */
  area: number;
  /** Wet wall */
  perimeter: number;
  /** Hydraulic radius */
  radius: number;
  /** Width of the surface */
  top: number;
  /** Below 1 tranquil, above 1 shooting; null where full */
  froude: number | null;
  /** Mean shear at the wall, N/m2 */
  drag: number;
}

/** Where the flow is critical, whatever the fall, and the fall at which it would run so */
export interface CriticalState {
  /** A length of 0 or more, in the book's unit */
  depth: number;
  proportion: number;
  velocity: number;
  /** One standard deviation; null where nothing determines it */
  fall: number | null;
}

/** Every rule of self-cleansing against the pipe */
export type RulesHeld = RuleHeld[];

/** One rule against one pipe */
export interface RuleHeld {
  /** Of the preset, or own-fall, own-velocity, own-drag of the book */
  name: string;
  title: string;
  source: string;
  edition: string;
  /** Of the figure used */
  provenance: "published" | "from memory" | "common practice, no source";
  /** hint: from memory, compared but no verdict */
  verdict: "met" | "flatter" | "steeper" | "hint" | "not-applicable";
  wants: RuleWants;
  has: RuleHas;
  /** WCs the rule asks for, where it is not told how many there are; else 0 */
  closets: number;
  /** The next usual bore at which this fall meets the rule */
  meets_from: number | null;
  sentence: string;
}

export interface RuleWants {
  /** Least fall at which the rule would be met; null where none up to 1 in 1 does, or the rule does not apply */
  fall: number | null;
  /** Steepest, where the rule has one */
  most_fall: number | null;
  /** One standard deviation; null where nothing determines it */
  velocity: number | null;
  /** N/m2 */
  drag: number | null;
}

export interface RuleHas {
  /** Rise per length, without unit */
  fall: number;
  /** One standard deviation; null where nothing determines it */
  velocity: number | null;
  /** N/m2 */
  drag: number | null;
}

// --- Answer to drain with a book, version 1

/** The drains of a book in full, and the pipe that would follow a line. Lengths in the book's unit, volumes in its cube; falls positive the way the water runs */
export interface DrainsAnswer {
  /** Version of this format */
  version: 1;
  unit: Unit;
  drains: DrainRunInFull[];
  /** null: not asked for */
  follow: Follow | null;
  /** What must be said beside the figures */
  cautions: Caution[];
  /** What the tool noticed, in order of first appearance */
  findings: Finding[];
}

/** The rule that cover is judged by */
export interface DrainCover {
  /** Name of the preset, or of the book's rule */
  rule: string;
  /** Wanted over the crown */
  least: number;
  source: string | null;
  edition: string | null;
}

/** One end of a pipe */
export interface DrainPipeEnd {
  /** Chainage */
  ch: number | null;
  /** The invert meant: at a chamber whose inverts differ laid in or laid out */
  what: "laid" | "laid in" | "laid out";
  /** Invert wanted */
  design: number | null;
  /** Invert found */
  level: number | null;
  /** One standard deviation; null where nothing determines it */
  sd: number | null;
  /** Found less wanted, high positive */
  deviation: number | null;
  /** What an upright staff on the invert wanted will read from the set-up */
  staff: number | null;
  /** With the noise of that one reading */
  staff_sd: number | null;
}

export interface DrainPipe {
  /** Chainage */
  from: number;
  /** Chainage */
  to: number;
  bore: number | null;
  /** Index in kinds; null where bore or fall is not known */
  kind: number | null;
  /** Fall wanted between its ends, positive the way the water runs */
  design: number | null;
  /** Fall as laid, between the first and the last reading in the pipe */
  gradient: number | null;
  /** One standard deviation; null where nothing determines it */
  sd: number | null;
  /** That it truly falls the wrong way */
  backfall_probability: number | null;
  /** Of the fall as laid, by the rules the job is held to */
  verdict: "untested" | "within" | "outside" | "undecided";
  /** As measured */
  plain: "within" | "outside" | null;
  /** That the fall as laid truly is what they want */
  probability: number | null;
  /** The socket: up the run */
  upper: DrainPipeEnd;
  /** The spigot: down the run */
  lower: DrainPipeEnd;
}

/** A fall that is not surely one */
export interface DrainFlat {
  /** A length, in the book's unit */
  from: number;
  /** A length, in the book's unit */
  to: number;
  /** Fall as laid between two successive readings */
  gradient: number;
  /** One standard deviation; null where nothing determines it */
  sd: number | null;
  design: number | null;
  /** A probability, 4 decimals; null where there is nothing to compare */
  backfall_probability: number | null;
}

/** Pipes of one bore, friction and designed fall */
export interface DrainKind {
  /** A length over 0, in the book's unit */
  bore: number;
  /** As designed */
  fall: number;
  /** A length; null by Manning */
  roughness: number | null;
  /** n; null by Colebrook-White */
  manning: number | null;
  /** Full bore: a second; cubed, a second */
  full: {
    velocity: number;
    flow: number;
  };
  /** The job's peak; null where it is not told */
  flow: number | null;
  /** At that flow, the lower of its depths; null without one and where the pipe cannot carry it */
  part: {
    /** A length of 0 or more, in the book's unit */
    depth: number;
    /** Depth over bore */
    proportion: number;
    velocity: number;
  } | null;
  /** That the rules held to want; null where none speaks of it or it is from memory */
  least_fall: number | null;
  most_fall: number | null;
  rules: RulesHeld;
}

export interface DrainChamber {
  name: string;
  /** A length, in the book's unit */
  ch: number;
  /** Level of its cover */
  cover: number | null;
  /** Cover less the lower invert */
  depth: number | null;
  /** Invert wanted where the water comes in */
  in: number | null;
  /** A level, in the book's unit; null where nothing determines it */
  out: number | null;
  /** in - out */
  drop: number | null;
  bore_in: number | null;
  bore_out: number | null;
  /** Soffit in less soffit out */
  soffit_drop: number | null;
  /** As found */
  laid_in: number | null;
  /** One standard deviation; null where nothing determines it */
  laid_in_sd: number | null;
  /** A level, in the book's unit; null where nothing determines it */
  laid_out: number | null;
  /** One standard deviation; null where nothing determines it */
  laid_out_sd: number | null;
  laid_drop: number | null;
  /** One standard deviation; null where nothing determines it */
  laid_drop_sd: number | null;
}

export interface DrainJoin {
  /** Of the own end */
  ch: number;
  /** The line joined */
  line: string;
  /** Its chainage there */
  at: number;
  by: "soffit" | "invert";
  /** The own one */
  invert: number | null;
  /** A level, in the book's unit; null where nothing determines it */
  other_invert: number | null;
  /** A level, in the book's unit; null where nothing determines it */
  other_soffit: number | null;
  /** Own invert less the other's */
  drop: number | null;
}

/** An invert found by dip, or where a join leads to, against the design there */
export interface DrainDip {
  point: string;
  /** On this line */
  ch: number;
  /** Invert found */
  level: number | null;
  /** One standard deviation; null where nothing determines it */
  sd: number | null;
  /** A level, in the book's unit; null where nothing determines it */
  design: number | null;
  /** Found less design */
  difference: number | null;
  /** One standard deviation; null where nothing determines it */
  difference_sd: number | null;
  /** Within 1.96 sd of the difference */
  agrees: boolean;
}

export interface DrainStation {
  /** A length, in the book's unit */
  ch: number;
  /** The invert meant: at a chamber whose inverts differ laid in or laid out */
  what: "laid" | "laid in" | "laid out";
  /** A level, in the book's unit; null where nothing determines it */
  invert: number | null;
  /** A level, in the book's unit; null where nothing determines it */
  soffit: number | null;
  /** A level, in the book's unit; null where nothing determines it */
  crown: number | null;
  /** Of the trench */
  bottom: number | null;
  /** Of the design; 0 where it leans on no reading */
  sd: number | null;
  /** Newest, straight between its readings */
  ground: number | null;
  /** One standard deviation; null where nothing determines it */
  ground_sd: number | null;
  /** Chamber cover, else ground, over the crown; negative: the pipe stands out */
  cover: number | null;
  /** One standard deviation; null where nothing determines it */
  cover_sd: number | null;
  /** From the higher of the ground on the line and at its edges to the trench bottom */
  depth: number | null;
  /** One standard deviation; null where nothing determines it */
  depth_sd: number | null;
  /** Invert found */
  laid: number | null;
  /** One standard deviation; null where nothing determines it */
  laid_sd: number | null;
  /** Over the crown as laid */
  laid_cover: number | null;
  /** One standard deviation; null where nothing determines it */
  laid_cover_sd: number | null;
  /** Of the cover, by the rule */
  verdict: "untested" | "within" | "outside" | "undecided";
  /** As measured */
  plain: "within" | "outside" | null;
  /** That it truly is at least what the rule asks for */
  probability: number | null;
  /** Of the cover as laid */
  laid_verdict: "untested" | "within" | "outside" | "undecided";
  /** As measured */
  laid_plain: "within" | "outside" | null;
  /** A probability, 4 decimals; null where there is nothing to compare */
  laid_probability: number | null;
}

/** Where widths are from, and the job's own figures */
export interface TrenchRule {
  /** Of the preset, or of the book's rule */
  name: string;
  source: string | null;
  edition: string | null;
  /** From memory: the widths are a hint */
  provenance: string | null;
  /** The job's own; null: by the preset */
  width: number | null;
  /** Sides out, horizontal per vertical */
  batter: number;
  /** Over the crown */
  surround: number;
  /** Loose over in place, less 1; null: nobody said */
  bulking: number | null;
  material: string | null;
  /** One lorry, loose, cubed unit */
  load: number | null;
}

/** Of pipes of one kind, from chamber to chamber */
export interface TrenchStretch {
  /** A length, in the book's unit */
  from: number;
  /** A length, in the book's unit */
  to: number;
  bore: number | null;
  /** At the bottom */
  narrowest: number | null;
  widest: number | null;
  shallowest: number | null;
  deepest: number | null;
  /** Length without ground or bottom */
  left_out: number;
  /** By prismoids, cubed unit */
  dug: number;
  /** From ground and design; the width held */
  dug_sd: number | null;
  by_end_areas: number;
  bedding: number;
  /** Less the pipe */
  surround: number;
  pipe: number;
  /** What is left */
  backfill: number;
}

export interface Dug {
  /** By prismoids, cubed unit */
  dug: number;
  /** From ground and design; the width held */
  dug_sd: number | null;
  by_end_areas: number;
  bedding: number;
  /** Less the pipe */
  surround: number;
  pipe: number;
  /** What is left */
  backfill: number;
}

export interface Trench {
  rule: TrenchRule;
  stretches: TrenchStretch[];
  total: Dug;
  spoil: {
    /** All that is dug, loose */
    loose: number | null;
    /** Lorries of it */
    loads: number | null;
    /** What is over once it is filled again, in place */
    surplus: number | null;
    surplus_loose: number | null;
    surplus_loads: number | null;
  };
}

/** A run of drains with its trench */
export interface DrainRunInFull {
  line: string;
  /** The one the staff readings are from */
  setup: string | null;
  /** Which way the water runs, by chainage */
  flow: "with" | "against";
  /** null: no rule asks for any */
  cover: DrainCover | null;
  pipes: DrainPipe[];
  flats: DrainFlat[];
  kinds: DrainKind[];
  chambers: DrainChamber[];
  joins: DrainJoin[];
  dips: DrainDip[];
  stations: DrainStation[];
  trench: Trench;
}

/** The way the water runs */
export interface FollowGrade {
  /** A length, in the book's unit */
  from: number;
  /** A length, in the book's unit */
  to: number;
  /** At its upper end */
  invert: number | null;
  /** A level, in the book's unit; null where nothing determines it */
  lower_invert: number | null;
  /** Rise per length, without unit */
  fall: number;
}

export interface FollowStation {
  /** A length, in the book's unit */
  ch: number;
  /** A level, in the book's unit; null where nothing determines it */
  ground: number | null;
  /** One standard deviation; null where nothing determines it */
  ground_sd: number | null;
  /** A level, in the book's unit; null where nothing determines it */
  invert: number | null;
  cover: number | null;
  /** To the trench bottom */
  depth: number | null;
  /** An end, or where two grades meet */
  meets: boolean;
}

/** The pipe of least dig with so many grades */
export interface FollowChoice {
  /** No choice of breaks digs less */
  proved: boolean;
  grades: FollowGrade[];
  /** By prismoids, cubed unit */
  dug: number;
  /** From ground and design; the width held */
  dug_sd: number | null;
  by_end_areas: number;
  bedding: number;
  /** Less the pipe */
  surround: number;
  pipe: number;
  /** What is left */
  backfill: number;
  /** The limits that the pipe lies on */
  held: ({
    by: "cover" | "least-fall" | "steepest-fall" | "outfall" | "inlet";
    /** Of a fall the upper end of its grade */
    ch: number;
  })[];
  /** More area of the long section for a limit that asks for more */
  prices: {
    /** A length: area for each length more cover */
    cover: number;
    /** An area, for 1 more */
    "least-fall": number;
    /** An area, for 1 less */
    "steepest-fall": number;
    /** A length */
    outfall: number;
    /** A length */
    inlet: number;
  };
  stations: FollowStation[];
}

/** The pipe of least dig under a line that was read */
export interface Follow {
  line: string;
  /** The surface it keeps under */
  what: string;
  flow: "with" | "against";
  /** Chainage, where that surface was read first */
  from: number | null;
  to: number | null;
  /** A length over 0, in the book's unit */
  bore: number;
  /** A length of 0 or more, in the book's unit */
  wall: number;
  /** A length of 0 or more, in the book's unit */
  bedding: number;
  /** Kept over the crown */
  cover: number;
  /** Rise per length, without unit */
  least_fall: number;
  /** The rule that asks for it; null: as given */
  fall_from: string | null;
  steepest_fall: number | null;
  /** The lower end lies no lower; null: none */
  outfall: number | null;
  /** The dip, or the line joined; null: as given */
  outfall_from: string | null;
  /** The upper end lies no higher; null: none */
  inlet: number | null;
  /** What to ask for that the cover truly is there */
  sure_cover: number | null;
  /** No pipe reaches the outfall, at best by this much; else null */
  shortfall: number | null;
  least_fall_that_reaches: number | null;
  rule: TrenchRule;
  /** One grade first, more where they save */
  choices: FollowChoice[];
}

// --- Answer to report with the option figure, version 1

/** Drawings of a book, each a complete SVG 1.1 document: real text, no script, no style sheet */
export interface FiguresAnswer {
  /** Version of this format */
  version: 1;
  unit: Unit;
  /** The drawing asked for */
  figure: FigureName;
  /** In order; one that is longer than the sheet is split over several */
  figures: DrawnFigure[];
}

/** Which drawing */
export type FigureName =
  | "long-section"
  | "cross-sections"
  | "deviations"
  | "trench"
  | "plan"
  | "network"
  | "surface"
  | "rod"
  | "pegs";

export interface DrawnFigure {
  /** What is drawn, and which sheet of how many */
  title: string;
  /** What it shows, for who cannot see it */
  said: string;
  /** Millimetres of paper */
  width: number;
  /** Millimetres of paper */
  height: number;
  /** The drawing */
  svg: string;
}

// --- Answer to report, version 1

/** The record of a job to read, print and sign: as html or as text, whichever was asked for */
export interface ReportAnswer {
  /** Version of this format */
  version: 1;
  unit: Unit;
  /** Of the job, as the record bears it */
  title: string;
  /** All of it, or one sheet */
  form: "full" | "one-page";
  /** What the pages are cut for */
  paper: "A4" | "Letter";
  /** One HTML document with its own style sheet and its drawings inside: no script, nothing fetched */
  html?: string;
  /** The same as plain text, drawings left out */
  text?: string;
  /** What the tool noticed, in order of first appearance */
  findings: Finding[];
}

// --- Answer to staff, version 1

/** The face of the staff around a reading, drawn, and how to read it */
export interface StaffAnswer {
  /** Version of this format */
  version: 1;
  unit: Unit;
  /** The figure drawn, 0 or more */
  reading: number;
  /** The staff hangs upside down */
  inverted: boolean;
  style: "text" | "svg";
  /** Lines of text, or an SVG document */
  drawing: string;
  /** How to read it, in one sentence */
  words: string;
  /** What the tool noticed, in order of first appearance */
  findings: Finding[];
}

// --- Answer to export, version 1

/** A book as a file of another program */
export interface ExportAnswer {
  /** Version of this format */
  version: 1;
  /** A file name made from the book's title */
  name: string;
  /** Its media type */
  type: "text/csv" | "application/xml" | "application/geo+json" | "application/jsonl";
  /** The whole file, UTF-8 */
  text: string;
  /** What has no place in that format */
  findings: Finding[];
}

// --- Answer to import, version 1

/** A file of another program as entries of a book, all or none */
export interface ImportAnswer {
  /** Version of this format */
  version: 1;
  /** Entries in the order to add them, without id, at and by; none where an error stands in findings */
  lines: Entry[];
  /** What the tool noticed, in order of first appearance */
  findings: Finding[];
}

// --- Answer to a request that is not usable, version 1

/** Nothing was evaluated; one finding says what, where, the cure */
export interface ErrorAnswer {
  error: Finding;
}

/** What each verb is answered with, where the request is usable */
export interface Answers {
  evaluate: EvaluateAnswer;
  levels: LevelsAnswer;
  check: CheckAnswer;
  trial: TrialAnswer;
  suspects: SuspectsAnswer;
  fall: FallAnswer;
  dial: DialAnswer;
  setout: SetoutAnswer;
  plan: PlanAnswer;
  drain: DrainAnswer | DrainsAnswer;
  report: FiguresAnswer | ReportAnswer;
  staff: StaffAnswer;
  export: ExportAnswer;
  import: ImportAnswer;
}
