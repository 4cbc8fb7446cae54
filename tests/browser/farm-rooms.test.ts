// The farm's pages fit on a few screens: at most four at a desk's width and eight on a phone.
import { expect, test } from 'vitest'
import { openPage } from './house.ts'
import { sampleHouse } from './sample-house.ts'

const opened = sampleHouse()
const rooms = ['/farm', '/farm/enterprises', '/farm/markets', '/farm/herds', '/farm/buying', '/farm/fit']

test.for([
  { width: 1280, height: 900, screens: 4 },
  { width: 360, height: 740, screens: 8 },
])('at $width px no page of the farm is longer than $screens screens', { timeout: 90_000 }, async (one) => {
  const { page } = await openPage(opened.browser, opened.house.base, {
    viewport: { width: one.width, height: one.height },
  })
  for (const room of rooms) {
    await page.goto(room)
    const tall = (await page.evaluate('document.documentElement.scrollHeight')) as number
    expect(tall / one.height, room).toBeLessThanOrEqual(one.screens)
  }
})
