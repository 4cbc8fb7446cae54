// What a worker does: takes paths of a run until none is left, or reads percentiles and summaries off what all have written.
import { deserialize } from 'node:v8'
import { bandRows } from './bands.ts'
import { type BearingTask, takeBearings } from './by-path/bearing.ts'
import { type ThresholdTask, takeThresholds } from './by-path/thresholds.ts'
import { takeYearEnds, type YearEndTask } from './by-path/year-ends.ts'
import type { CourseMemory, CourseRun } from './course-run.ts'
import { summarize } from './outcome.ts'
import { makeWorkspace, takePaths, type Workspace } from './paths.ts'

/** `plan` is the run, serialized once into shared memory; `id` tells whether this worker has read it already. */
export interface WorkOrder {
  id: number
  plan: Uint8Array<SharedArrayBuffer>
  memory: CourseMemory
  task: WorkerTask
}

export type WorkerTask =
  | { kind: 'paths' }
  | { kind: 'thresholds'; task: ThresholdTask; thresholds: Float64Array<SharedArrayBuffer> }
  | { kind: 'bearings'; task: BearingTask; bearings: Float64Array<SharedArrayBuffer> }
  | { kind: 'yearEnds'; task: YearEndTask; yearEnds: Float64Array<SharedArrayBuffer> }
  | { kind: 'bands'; of: 'months' | 'atFirstPrices'; fromMonth: number; toMonth: number }
  | { kind: 'outcome' }

export type WorkAnswer = null | ReturnType<typeof bandRows> | ReturnType<typeof summarize>

let known: { id: number; run: CourseRun; workspace: Workspace } | null = null

export function work(order: WorkOrder): WorkAnswer {
  if (known?.id !== order.id) {
    const run = deserialize(Buffer.from(order.plan)) as CourseRun
    known = { id: order.id, run, workspace: makeWorkspace(run) }
  }
  const { run, workspace } = known
  switch (order.task.kind) {
    case 'paths':
      takePaths(run, order.memory, workspace)
      return null
    case 'thresholds':
      takeThresholds(run, order.task.task, order.memory, order.task.thresholds, workspace)
      return null
    case 'bearings':
      takeBearings(run, order.task.task, order.memory, order.task.bearings, workspace)
      return null
    case 'yearEnds':
      takeYearEnds(run, order.task.task, order.memory, order.task.yearEnds, workspace)
      return null
    case 'bands':
      return bandRows(order.memory[order.task.of], run, order.task.fromMonth, order.task.toMonth)
    case 'outcome':
      return summarize(run, order.memory.figures)
  }
}
