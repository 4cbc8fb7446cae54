// Colors that the system forces: no mark of a chart is lost. Text at 200 % is looked at in every-page.
import { expect, test } from 'vitest'
import { openPage } from './house.ts'
import { sampleHouse } from './sample-house.ts'

const opened = sampleHouse()

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

test('with forced colors the current page is told by a rail or a weight, which no color can take away', async () => {
  const markOf = (link: string) => `(() => {
    const { borderBottomWidth, borderBottomStyle, fontWeight } = getComputedStyle(document.querySelector('${link}'))
    return [borderBottomStyle === 'none' ? '0px' : borderBottomWidth, fontWeight].join(' ')
  })()`
  for (const width of [1280, 360]) {
    const { page } = await openPage(opened.browser, opened.house.base, {
      forcedColors: 'active',
      viewport: { width, height: 800 },
      javaScriptEnabled: false,
    })
    await page.goto('/books/entry')
    for (const list of ['.pages', '.rooms']) {
      const current = await page.evaluate(markOf(`${list} a[aria-current]`))
      const other = await page.evaluate(markOf(`${list} a:not([aria-current])`))
      expect(current, `${list} at ${width}`).not.toBe(other)
    }
  }
})
