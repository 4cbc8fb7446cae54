// A linear program with whole-number columns: solved by HiGHS, its dual values, and, when nothing fits, which limits clash.
import type { Highs } from 'highs'

export interface Column {
  objective: number
  lower: number
  /** `Infinity` for none. */
  upper: number
  whole: boolean
}

export interface Row {
  /** In words, for the answer: "hours in June". */
  name: string
  terms: [column: number, coefficient: number][]
  relation: '<=' | '>=' | '='
  limit: number
}

export interface Program {
  sense: 'max' | 'min'
  columns: Column[]
  rows: Row[]
}

export interface Optimum {
  kind: 'optimum'
  objective: number
  values: number[]
  /** Change of the objective for one more of a row's limit, or of a column's fixed value, with whole numbers held as they are. */
  rowWorth: number[]
  columnWorth: number[]
}

export type Solved = Optimum | { kind: 'nothing fits' } | { kind: 'no end' }

export type Solver = Pick<Highs, 'solve'>

/** Loads the solver once; later calls share it. Its types describe the CommonJS build, hence the reading of `default`. */
export const loadSolver = (): Promise<Solver> => {
  loading ??= import('highs').then((module) => (module.default as unknown as () => Promise<Solver>)())
  return loading
}
let loading: Promise<Solver> | undefined

/** Whole numbers to within one millionth of the best objective. */
export const solveProgram = (solver: Solver, program: Program): Solved => {
  const first = run(solver, program)
  if (first.kind !== 'optimum' || !program.columns.some((column) => column.whole)) return first
  const held = holdWholeNumbers(program, first.values)
  const linear = run(solver, held)
  if (linear.kind !== 'optimum')
    throw new Error(`The optimum of a whole program fits, yet not when held: ${linear.kind}`)
  return linear
}

/** The same program with every whole column fixed at its rounded value: its duals are the worths. */
const holdWholeNumbers = (program: Program, values: readonly number[]): Program => ({
  ...program,
  columns: program.columns.map((column, i) =>
    column.whole
      ? { ...column, lower: Math.round(values[i]!), upper: Math.round(values[i]!), whole: false }
      : column,
  ),
})

/** The columns that can grow for ever while the objective gains: those of a best direction in which every limit still holds. */
export const endlessColumns = (solver: Solver, program: Program): number[] => {
  const found = solveProgram(solver, {
    sense: program.sense,
    columns: program.columns.map((column) => ({
      ...column,
      lower: 0,
      upper: Number.isFinite(column.upper) ? 0 : 1,
      whole: false,
    })),
    rows: program.rows.map((row) => ({ ...row, limit: 0 })),
  })
  return found.kind === 'optimum' ? found.values.flatMap((value, i) => (value > 1e-9 ? [i] : [])) : []
}

/**
 * The limits that cannot hold together, and by how much, at least, some of them would have to give (0: it clashes, but another
 * gives). Only rows that `mayGive` are bent; the others of the set are those that press against them (non-zero dual values).
 */
export const limitsThatClash = (
  solver: Solver,
  program: Program,
  mayGive: (row: Row) => boolean,
): { row: Row; by: number }[] => {
  const columns = program.columns.map((column) => ({ ...column, objective: 0 }))
  const gives = new Map<number, [over: number, under: number]>()
  const give = (cost: number) =>
    columns.push({ objective: cost, lower: 0, upper: Number.POSITIVE_INFINITY, whole: false }) - 1
  const rows = program.rows.map((row, r): Row => {
    if (!mayGive(row)) return row
    const cost = 1 / Math.max(1, Math.abs(row.limit))
    const [over, under] = [give(cost), give(cost)]
    gives.set(r, [over, under])
    return { ...row, terms: [...row.terms, [over, -1], [under, 1]] }
  })
  const solved = solveProgram(solver, { sense: 'min', columns, rows })
  if (solved.kind !== 'optimum') return []
  return [...gives]
    .map(([r, [over, under]]) => ({
      row: program.rows[r]!,
      by: tidyGive(solved.values[over]! + solved.values[under]!, program.rows[r]!),
      presses: Math.abs(solved.rowWorth[r]! * Math.max(1, Math.abs(program.rows[r]!.limit))) > 1e-6,
    }))
    .filter(({ by, presses }) => by > 0 || presses)
    .map(({ row, by }) => ({ row, by }))
}

const tidyGive = (by: number, row: Row) => (by > 1e-6 * Math.max(1, Math.abs(row.limit)) ? by : 0)

/** Farm mixes are small: the restarts and inner searches that large programs need cost four times what they save here. */
const smallProgram = {
  output_flag: false,
  mip_rel_gap: 1e-6,
  mip_allow_restart: false,
  mip_heuristic_run_rins: false,
  mip_heuristic_run_rens: false,
  mip_heuristic_run_root_reduced_cost: false,
} as const

const run = (solver: Solver, program: Program): Solved => {
  const impossible = program.rows.some((row) => nonZero(row).length === 0 && !emptyRowHolds(row))
  if (impossible) return { kind: 'nothing fits' }
  const solution = solver.solve(asText(program), smallProgram)
  if (solution.Status === 'Infeasible') return { kind: 'nothing fits' }
  if (solution.Status === 'Unbounded' || solution.Status === 'Primal infeasible or unbounded')
    return { kind: 'no end' }
  if (solution.Status !== 'Optimal')
    throw new Error(`The solver stopped without an answer: ${solution.Status}`)
  const columns = solution.Columns as Record<string, { Primal: number; Dual?: number }>
  const rows = new Map(
    (solution.Rows as { Name: string; Dual?: number }[]).map((row) => [row.Name, row.Dual ?? 0]),
  )
  return {
    kind: 'optimum',
    objective: solution.ObjectiveValue,
    values: program.columns.map((_, i) => columns[`c${i}`]?.Primal ?? 0),
    rowWorth: program.rows.map((_, i) => rows.get(`r${i}`) ?? 0),
    columnWorth: program.columns.map((_, i) => columns[`c${i}`]?.Dual ?? 0),
  }
}

const nonZero = (row: Row) => row.terms.filter(([, coefficient]) => coefficient !== 0)

const emptyRowHolds = (row: Row) =>
  row.relation === '<=' ? row.limit >= 0 : row.relation === '>=' ? row.limit <= 0 : row.limit === 0

/** CPLEX LP text. Every column is named in the objective, so that none is lost. */
const asText = (program: Program): string => {
  const objective = program.columns.map((column, i) => term(column.objective, i))
  const rows = program.rows.flatMap((row, i) => {
    const terms = nonZero(row)
    if (terms.length === 0) return []
    return [
      ` r${i}: ${lines(terms.map(([column, coefficient]) => term(coefficient, column)))} ${row.relation} ${row.limit}`,
    ]
  })
  const bounds = program.columns.map(
    (column, i) => ` ${bound(column.lower)} <= c${i} <= ${bound(column.upper)}`,
  )
  const whole = program.columns.flatMap((column, i) => (column.whole ? [`c${i}`] : []))
  return [
    program.sense === 'max' ? 'Maximize' : 'Minimize',
    ` obj: ${lines(objective)}`,
    'Subject To',
    ...rows,
    'Bounds',
    ...bounds,
    ...(whole.length > 0 ? ['General', ` ${lines(whole)}`] : []),
    'End',
  ].join('\n')
}

const term = (coefficient: number, column: number) =>
  `${coefficient < 0 ? '-' : '+'} ${Math.abs(coefficient)} c${column}`
const bound = (value: number) =>
  value === Number.POSITIVE_INFINITY ? '+inf' : value === Number.NEGATIVE_INFINITY ? '-inf' : String(value)

/** The format limits a line's length. */
const lines = (parts: readonly string[]): string => {
  const out: string[] = []
  for (let i = 0; i < parts.length; i += 12) out.push(parts.slice(i, i + 12).join(' '))
  return out.join('\n  ')
}
