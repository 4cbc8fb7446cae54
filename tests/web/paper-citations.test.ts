// A preparer's paper cites forms and law; what nobody read in them is told on the screen alone.
import { afterEach, beforeEach, expect, test } from 'vitest'
import { yearBooks } from '../outside/year-books.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
beforeEach(() => {
  app = testApp({ today: '2026-02-10' })
  app.openSides()
  yearBooks(app.books).book({}, { Supplies: '6,000' })
})
afterEach(() => app.close())

test('the farm’s form cites its edition on paper without how its lines were read, and says that on the screen', async () => {
  const page = await (await app.get('/year-pack/sheets/schedule-f?year=2025&basis=cash')).text()
  const paper = page.replace(/<span class="no-print">[^<]*<\/span>/g, '')
  expect(page).toContain('are from memory.')
  expect(paper).toContain(
    'Source: Schedule F (Form 1040) 2025, lines 1a to 34; line captions in our own words.',
  )
  expect(paper).not.toContain('from memory')
})
