// The chance part of the Runway page and the questions, as a browser with and without script asks for them.
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest'
import { latestRevision } from '#db/plan-store.ts'
import type { Plan } from '#plan/plan.ts'
import type { Draw } from '#solve/draw-answer.ts'
import { questionWords } from '#solve/questions.ts'
import { courseWorkers } from '#web/forms/course-workers.ts'
import { newFormId } from '#web/forms/form.ts'
import { refusalOf } from '#web/pages/chance/chance-run.ts'
import { farmPlan } from '../chance/plans.ts'
import { browserForms, fieldsOf } from './browser-form.ts'
import { type TestApp, testApp } from './test-app.ts'

// Workers start slowly on a busy machine.
vi.setConfig({ testTimeout: 300_000, hookTimeout: 60_000 })

let app: TestApp

beforeAll(() => {
  app = testApp({ today: '2026-11-20' })
  app.savePlan(farmPlan({}, 66))
})
afterAll(async () => {
  app.close()
  await courseWorkers().close()
})

const planOf = (of: TestApp): Plan => latestRevision(of.books, 'ours')!.document as Plan

const fragment = (target: string) => ({
  'HX-Request': 'true',
  'HX-Request-Type': 'partial',
  'HX-Target': target,
})

/** Asks for the JSON of a page until its work has ended. */
async function ended(address: string): Promise<{ run: Record<string, never> & { status: string } }> {
  for (;;) {
    const figures = (await (await app.get(address)).json()) as { run: never }
    if ((figures.run as { status: string }).status !== 'running') return figures as never
    await new Promise((resolve) => setTimeout(resolve, 50))
  }
}

describe('how sure', () => {
  test('without script: the form starts the courses, the page says how far they are, and shows what they came to', async () => {
    const started = await app.post('/runway/chance', { paths: '60', seed: '7', from: 'chance' })
    expect(started.status).toBe(303)
    const address = started.headers.get('location')!
    expect(address).toMatch(/^\/runway\/chance\?job=/)
    const figures = await ended(address.replace('/runway/chance', '/runway/chance.json'))
    expect(figures.run).toMatchObject({ status: 'done', outcome: { paths: 60, seed: 7 } })
    const page = await (await app.get(address)).text()
    expect(page).toContain('of 60 simulations')
    expect(page).toContain('id="chance-bands"')
    expect(page).not.toContain('every 400ms')
  })

  test('in today’s dollars each course counts by its own prices; the expected course is the one on Runway', async () => {
    interface Told {
      outcome: { atEnd: { p10: number; p50: number; p90: number } }
      bands: { p50: number }[]
      expected: number[]
    }
    const [year, today] = (await Promise.all(
      [{ cookie: 'dooryard-dollars=year' }, {}].map(
        async (headers) =>
          ((await (await app.get('/runway/chance.json', headers)).json()) as { run: Told }).run,
      ),
    )) as [Told, Told]
    const runway = (await (await app.get('/runway.json')).json()) as { months: { spendable: number }[] }
    expect(today.expected).toEqual(runway.months.map((one) => one.spendable))
    const last = today.expected.length - 1
    expect(year.expected[last]! / today.expected[last]!).toBeGreaterThan(1.5)
    expect(year.bands[0]!.p50).toBeCloseTo(today.bands[0]!.p50, 2)
    // Over decades a dollar of then is worth far less: spread and middle shrink alike.
    for (const share of ['p50', 'p90'] as const)
      expect(year.outcome.atEnd[share]).toBeGreaterThan(1.5 * today.outcome.atEnd[share])
    expect(await (await app.get('/runway/chance')).text()).toContain('In today’s dollars, of November 2026.')
  })

  test('with script: a part that asks again while it runs, and no longer when it is stopped', async () => {
    const running = await app.post(
      '/runway/chance',
      { paths: '20000', seed: '8', from: 'chance' },
      fragment('section#chance'),
    )
    const part = await running.text()
    expect(part).toContain('hx-trigger="every 400ms"')
    expect(part).not.toContain('<html')
    const job = /name="job" value="([^"]+)"/.exec(part)![1]!
    const stopped = await app.post('/runway/chance/stop', { job })
    expect(stopped.status).toBe(303)
    const after = await (await app.get(`/runway/chance?job=${job}`, fragment('section#chance'))).text()
    expect(after).toContain('Stopped.')
    expect(after).not.toContain('every 400ms')
  })

  test('keeps what was typed and says what would be right', async () => {
    const refused = await app.post('/runway/chance', { paths: 'many', seed: '1', from: 'chance' })
    expect(refused.status).toBe(422)
    const page = await refused.text()
    expect(page).toContain('Enter a whole number from 50 to 20000')
    expect(page).toContain('value="many"')
  })

  test('replays history from every start that leaves enough years', async () => {
    const started = await app.post('/runway/chance', { paths: '100', seed: '1', from: 'history' })
    const figures = await ended(
      started.headers.get('location')!.replace('/runway/chance', '/runway/chance.json'),
    )
    // The plan runs from 2026 into 2047, 22 calendar years; 1928 to 2024 are 97: 76 starts.
    expect(figures.run).toMatchObject({ status: 'done', outcome: { paths: 76 } })
  })

  test('belong to what went into them: a plan changed and changed back finds them, an edited one says what they are of', async () => {
    const started = await app.post('/runway/chance', { paths: '70', seed: '11', from: 'chance' })
    const address = started.headers.get('location')!
    await ended(address.replace('/runway/chance', '/runway/chance.json'))
    const now = await (await app.get('/runway/chance')).text()
    expect(now).toContain('of 70 simulations')
    expect(now).not.toContain('of the plan as it was then')
    const { household } = planOf(app)
    const { revisionNo } = latestRevision(app.books, 'ours')!
    expect(now).toContain(
      `Asked on Nov 20, 2026 of revision ${revisionNo}; plan and books have not changed since.`,
    )
    app.savePlan(
      { ...planOf(app), household: { ...household, survivorShare: 0.72 } },
      { basedOn: revisionNo },
    )
    // By its own address and by the page's: told as what it is, with the line of the plan that was simulated.
    for (const each of [address, '/runway/chance']) {
      const page = await (await app.get(each)).text()
      expect(page).toContain('of 70 simulations')
      expect(page).toContain(`of the plan as it was then, revision ${revisionNo}`)
      expect(page).toMatch(
        new RegExp(`Since then the plan was saved as revision ${revisionNo + 1} on \\w+ \\d+, \\d{4}\\.`),
      )
      expect(page).not.toContain('bands as CSV')
    }
    const json = (await (await app.get(address.replace('/runway/chance', '/runway/chance.json'))).json()) as {
      before: { revisionNo: number } | null
    }
    expect(json.before).toMatchObject({ revisionNo })
    // Beside a course of the plan as it is stand no figures of another one.
    expect(await (await app.get('/runway')).text()).not.toContain('of 70 simulations')
    app.savePlan({ ...planOf(app), household }, { basedOn: revisionNo + 1 })
    const back = await (await app.get('/runway/chance')).text()
    expect(back).toContain('of 70 simulations')
    expect(back).not.toContain('of the plan as it was then')
    expect(back).toContain(
      `of revision ${revisionNo}, which says what revision ${revisionNo + 2} does; the books have not changed since.`,
    )
    expect(await (await app.get('/runway')).text()).toContain('of 70 simulations')
    const again = await app.post('/runway/chance', { paths: '70', seed: '11', from: 'chance' })
    expect(again.headers.get('location')).toBe(address)
  })

  test('refuses to replay what is no history, in words', () => {
    const stated = farmPlan({ chance: { markets: 'stated' } })
    expect(refusalOf(stated, { paths: 100, seed: 1, from: 'history' })).toContain('choose a history')
    expect(refusalOf(stated, { paths: 100, seed: 1, from: 'chance' })).toBeNull()
  })

  test('answers the same choices from what is kept, at once', async () => {
    const first = await app.post('/runway/chance', { paths: '60', seed: '7', from: 'chance' })
    const second = await app.post('/runway/chance', { paths: '60', seed: '7', from: 'chance' })
    expect(second.headers.get('location')).toBe(first.headers.get('location'))
  })

  test('gives its bands as CSV, one row a month', async () => {
    const started = await app.post('/runway/chance', { paths: '60', seed: '7', from: 'chance' })
    const csv = await (
      await app.get(
        started.headers.get('location')!.replace('/runway/chance?', '/runway/chance.csv?table=bands&'),
      )
    ).text()
    const [header, first] = csv.split('\r\n')
    expect(header).toBe('month,10th percentile,middle,90th percentile,as planned,runs still going,dollars')
    expect(first).toMatch(/^2026-11,[\d.-]+,[\d.-]+,[\d.-]+,[\d.-]+,60,of 2026-11$/)
  })

  test('has its settings among the plan’s forms', async () => {
    const page = await (await app.get('/runway/plan/chance')).text()
    expect(page).toContain('name="chance.seasonsTogether"')
    expect(page).toContain('Lengths of life vary')
  })

  test('stands in brief on the Runway page', async () => {
    const page = await (await app.get('/runway')).text()
    expect(page).toContain('id="chance-brief"')
  })
})

describe('a question', () => {
  test('without script: is asked by its form and answered with a sentence, a chart and JSON', async () => {
    const asked = await app.post('/runway/questions/start-with', {
      confidence: '80',
      paths: '50',
      seed: '2',
    })
    expect(asked.status).toBe(303)
    const address = asked.headers.get('location')!
    const figures = await ended(address.replace('start-with?', 'start-with.json?'))
    expect(figures.run).toMatchObject({
      status: 'done',
      answer: { question: 'start-with', confidence: 0.8, paths: 50, seed: 2 },
    })
    const page = await (await app.get(address)).text()
    expect(page).toContain((figures.run as unknown as { answer: { sentence: string } }).answer.sentence)
    expect(page).toContain('id="answer-curve"')
    expect(page).toContain('name="confidence" type="text" value="80"')
    // Shown in other dollars it was not asked: what was answered is told with that, and not shown as if it were of now.
    const other = await (
      await app.get('/runway/questions/start-with', { Cookie: 'dooryard-dollars=year' })
    ).text()
    expect(other).toContain('of the plan as it was then, revision')
    expect(other).toContain('Since then other dollars are shown. Ask again for what holds now.')
    expect(other).not.toContain('id="answer-curve"')
  })

  test('can be stopped', async () => {
    const asked = await app.post(
      '/runway/questions/claim',
      { confidence: '90', paths: '5000', seed: '3' },
      fragment('section#question'),
    )
    const job = /name="job" value="([^"]+)"/.exec(await asked.text())![1]!
    await app.post('/runway/questions/claim/stop', { job })
    expect(await (await app.get(`/runway/questions/claim?job=${job}`)).text()).toContain('Stopped.')
  })

  test('that is stopped keeps what was known by then, as of so many simulations, and offers none of it to the plan', async () => {
    const place = '/runway/questions/plow-back'
    const asked = await app.post(place, { confidence: '90', paths: '5000', seed: '17' })
    const address = asked.headers.get('location')!
    const figures = async () =>
      (await (await app.get(address.replace('?', '.json?'))).json()) as {
        run: { status: string; soFar: { answer: { paths: number; sentence: string } } | null }
      }
    let known = await figures()
    while (known.run.status === 'running' && known.run.soFar === null) {
      await new Promise((resolve) => setTimeout(resolve, 50))
      known = await figures()
    }
    await app.post(`${place}/stop`, { job: address.split('job=')[1]! })
    const { run } = await figures()
    expect(run).toMatchObject({ status: 'stopped', soFar: { answer: { paths: 60 } } })
    const page = await (await app.get(address)).text()
    expect(page).toContain('This was known by then, from 60 simulations.')
    expect(page).toContain(run.soFar!.answer.sentence)
    expect(page).not.toContain('/runway/questions/plow-back/take')
  })

  test('says at the field what would be right', async () => {
    const refused = await app.post('/runway/questions/draw', { confidence: '100', paths: '50', seed: '1' })
    expect(refused.status).toBe(422)
    expect(await refused.text()).toContain('Enter a whole number from 50 to 99')
  })

  test('that does not exist is not found', async () => {
    expect((await app.get('/runway/questions/weather')).status).toBe(404)
  })

  test('of income room tells every year with marketplace cover, as page and CSV', async () => {
    const figures = (await (await app.get('/runway/questions/income-room.json')).json()) as {
      years: { year: number; rooms: unknown[] }[]
    }
    // Ida turns 65 in June 2046: the last year with a month on the marketplace.
    expect(figures.years.at(-1)!.year).toBe(2046)
    const csv = await (await app.get('/runway/questions/income-room.csv')).text()
    expect(csv.split('\r\n').filter((line) => line !== '')).toHaveLength(
      1 + figures.years.reduce((sum, year) => sum + year.rooms.length, 0),
    )
  })

  test('stands in a list with the others, which says what is answered, and is taken into the plan by one press', async () => {
    const asked = await app.post('/runway/questions/draw', { confidence: '90', paths: '50', seed: '4' })
    const address = asked.headers.get('location')!
    const told = await ended(address.replace('draw?', 'draw.json?'))
    const { answer } = told.run as unknown as { answer: Draw }
    const list = await (await app.get('/runway/questions')).text()
    for (const question of [...Object.keys(questionWords), 'income-room'])
      expect(list).toContain(`/runway/questions/${question}`)
    expect(list).toMatch(/Answered on Nov 20, 2026, of revision \d+: /)
    // The press that the page offers saves these draws as a new revision, once.
    const page = await (await app.get(address)).text()
    const form = browserForms(page, address).find(({ action }) => action.endsWith('/take'))!
    // Tried first: Runway with these draws as its levers, nothing saved.
    const tryAddress = /href="(\/runway\?try=[^"]*steps)"/.exec(page)![1]!
    const before = planOf(app).draw
    const tried = await (await app.get(tryAddress)).text()
    expect(tried).toContain('Take the steps into the plan')
    const levers = (await (await app.get(tryAddress.replace('/runway?', '/runway.json?'))).json()) as {
      levers: Record<string, string>
    }
    const steps = answer.compared.find((one) => one.as === 'steps')!.draw as Extract<
      Plan['draw'],
      { policy: 'steps' }
    >
    expect(Object.keys(levers.levers).filter((name) => name.startsWith('steps.'))).toHaveLength(
      steps.steps.length,
    )
    expect(planOf(app).draw).toEqual(before)
    const gone = await (await app.get('/runway?try=gone%20steps')).text()
    expect(gone).toContain('no longer kept')
    // A name that the answer does not have changes nothing and says so, on both ways.
    const unknown = await app.post(form.action, {
      ...fieldsOf(form),
      formId: newFormId(),
      which: 'level-seven',
    })
    expect(await (await app.get(unknown.headers.get('location')!)).text()).toContain(
      'nothing called “level-seven”',
    )
    expect(await (await app.get(tryAddress.replace(/steps$/, 'stairs'))).text()).toContain(
      'nothing called “stairs”',
    )
    expect(planOf(app).draw).toEqual(before)
    const sent = { ...fieldsOf(form), which: 'steps' }
    const taken = await app.post(form.action, sent)
    expect(taken.status).toBe(303)
    expect(planOf(app).draw).toEqual(answer.compared.find((one) => one.as === 'steps')!.draw)
    const again = await app.post(form.action, sent)
    expect(again.headers.get('location')).toContain('/runway/questions/draw')
    // The plan is another one now: the answer is told as one of before.
    expect(await (await app.get('/runway/questions')).text()).toContain('of the plan as it was then')
    // It stays with its tables, without the presses that would take it, and one press asks it again with the same choices.
    const older = await (await app.get('/runway/questions/draw')).text()
    expect(older).toContain('of the plan as it was then, revision')
    expect(older).toContain('Today’s plan and these draws in the same simulations')
    expect(older).not.toContain('/runway/questions/draw/take')
    expect(older).toContain('Ask again')
    expect(
      fieldsOf(browserForms(older, '/runway/questions/draw').find(({ action }) => action.endsWith('/draw'))!),
    ).toMatchObject({ confidence: '90', paths: '50', seed: '4' })
    // Changed back, by a revision of its own, the plan is again the one that was asked.
    const { revisionNo } = latestRevision(app.books, 'ours')!
    app.savePlan({ ...planOf(app), draw: before }, { basedOn: revisionNo })
    const back = await (await app.get('/runway/questions/draw')).text()
    expect(back).not.toContain('of the plan as it was then')
    expect(back).toContain('/runway/questions/draw/take')
  })

  test('that was started is found under way, and answered, of the plan as it was when the plan has become another', async () => {
    const place = '/runway/questions/plow-back'
    const asked = await app.post(place, { confidence: '90', paths: '5000', seed: '9' })
    const address = asked.headers.get('location')!
    const plan = planOf(app)
    const revision = latestRevision(app.books, 'ours')!.revisionNo
    app.savePlan({ ...plan, household: { ...plan.household, survivorShare: 0.71 } }, { basedOn: revision })
    // By its own address and by that of the question: under way, and of which plan.
    for (const each of [address, place]) {
      const page = await (await app.get(each)).text()
      expect(page).toContain(`of the plan as it was then, revision ${revision}`)
      expect(page).toContain('Ask it of the plan as it is now')
      expect(page).toContain('>Stop<')
    }
    expect(await (await app.get('/runway/questions')).text()).toContain(
      `Being worked out now, of the plan as it was at revision ${revision}.`,
    )
    // Asked once more it is another question, and the first one goes on.
    const again = await app.post(place, { confidence: '90', paths: '50', seed: '9' })
    expect(again.headers.get('location')).not.toBe(address)
    const first = await (await app.get(address)).text()
    expect(first).toContain(`of the plan as it was then, revision ${revision}`)
    const job = address.split('job=')[1]!
    await app.post(`${place}/stop`, { job })
    expect(await (await app.get(address)).text()).toContain('Stopped.')
    const told = await ended(again.headers.get('location')!.replace('plow-back?', 'plow-back.json?'))
    expect(told.run.status).toBe('done')
    // One that was stopped does not hide the one that is answered.
    expect(await (await app.get(place)).text()).toContain('50 simulations, seed 9')
  })

  test('that is no longer kept takes nothing into the plan', async () => {
    const before = planOf(app)
    const form = { formId: newFormId(), job: 'gone', which: 'steps' }
    expect((await app.post('/runway/questions/draw/take', form)).status).toBe(303)
    expect(planOf(app)).toEqual(before)
  })
})
