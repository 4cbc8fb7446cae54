// The sample farm in a running house with a browser, opened before a file's tests and closed after them.
import type { Browser } from 'playwright-core'
import { afterAll, beforeAll } from 'vitest'
import { closePages, launch, openHouse, type RunningHouse } from './house.ts'

/** Filled once the tests run. */
export const sampleHouse = (): { house: RunningHouse; browser: Browser } => {
  const opened = {} as { house: RunningHouse; browser: Browser }
  beforeAll(async () => {
    opened.house = await openHouse('sample')
    opened.browser = await launch()
  }, 180_000)
  afterAll(async () => {
    await closePages(opened.browser)
    await opened.house.close()
  })
  return opened
}
