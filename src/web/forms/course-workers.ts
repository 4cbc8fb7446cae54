// The workers of this server: made soon after a page that may need them is first shown, so that they are ready when asked.
import { CoursePool, mostWorkers, serverNiceness } from '#chance/pool.ts'

let pool: CoursePool | undefined

export function courseWorkers(): CoursePool {
  pool ??= new CoursePool(mostWorkers, { niceness: serverNiceness })
  return pool
}

const afterThePageIsSent = 400

/** Makes the workers once the page now asked for is out; a program that ends before that has not waited for them. */
export function readyWorkersSoon(): void {
  if (pool === undefined) setTimeout(courseWorkers, afterThePageIsSent).unref()
}
