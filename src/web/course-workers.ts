// The workers of this server: made when a page that may need them is first shown, so that they are ready when asked.
import { CoursePool, mostWorkers, serverNiceness } from '#chance/pool.ts'

let pool: CoursePool | undefined

export function courseWorkers(): CoursePool {
  pool ??= new CoursePool(mostWorkers, { niceness: serverNiceness })
  return pool
}
