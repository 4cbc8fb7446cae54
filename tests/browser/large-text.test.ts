// Text at 200 %, as a reader sets it in the browser, and colors that the system forces: nothing runs out of the page, no mark is lost.
import { chromium } from 'playwright-core'
import { expect, test } from 'vitest'
import { navigation, roomsOf } from '#web/forms/navigation.ts'
import { findChromium } from './find-chromium.mjs'
import { openPage } from './house.ts'
import { sampleHouse } from './sample-house.ts'

const opened = sampleHouse()
const paths = [
  ...new Set(navigation.flatMap(({ path }) => [path, ...roomsOf(path).map((room) => room.path)])),
]

test('with letters of twice the size no page is wider than its window', { timeout: 240_000 }, async () => {
  const browser = await chromium.launch({
    executablePath: findChromium() ?? '',
    args: ['--no-sandbox', '--disable-gpu', '--blink-settings=defaultFontSize=32'],
  })
  try {
    const { page } = await openPage(browser, opened.house.base, {
      viewport: { width: 1280, height: 900 },
      javaScriptEnabled: false,
    })
    await page.goto('/now')
    expect(await page.evaluate('getComputedStyle(document.documentElement).fontSize')).toBe('32px')
    const wide: string[] = []
    for (const path of paths) {
      await page.goto(path)
      const over = (await page.evaluate(
        'document.documentElement.scrollWidth - document.documentElement.clientWidth',
      )) as number
      if (over > 0) wide.push(`${path}: ${over} px`)
    }
    expect(wide).toEqual([])
  } finally {
    await browser.close()
  }
})

test('with forced colors the marks of charts take the system’s', async () => {
  const { page } = await openPage(opened.browser, opened.house.base, {
    forcedColors: 'active',
    colorScheme: 'dark',
    javaScriptEnabled: false,
  })
  await page.goto('/runway')
  const [text, line, dot] = (await page.evaluate(`(() => {
    const wide = document.querySelector('#savings-course .chart-wide')
    return [
      getComputedStyle(document.body).color,
      getComputedStyle(wide.querySelector('.line')).stroke,
      getComputedStyle(wide.querySelector('.ring')).stroke,
    ]
  })()`)) as string[]
  expect(line).toBe(text)
  expect(dot).toBe(text)
})
