import { readFileSync } from 'node:fs'
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { latestRevision } from '#db/plan-store.ts'
import { differences } from '#plan/difference.ts'
import { type Plan, planSchema } from '#plan/plan.ts'
import { fullPlans } from '../plan/full-plan.ts'
import { randomPlan } from '../runway/random-plan.ts'
import { type BrowserForm, browserForms, fieldsOf, filledForm } from './browser-form.ts'
import { type TestApp, testApp } from './test-app.ts'

const sample = planSchema.parse(
  JSON.parse(readFileSync(new URL('../../sample/plan.json', import.meta.url), 'utf8')),
)

/** Forms whose button is there to change the plan or to ask something, each with what it does. */
const changing: [RegExp, string][] = [
  [/\/remove$/, 'takes a part out'],
  [/\/new$/, 'adds a part'],
  [/\/mix$/, 'takes a mix into a phase'],
  [/^\/farm\/purchases\/order$/, 'moves a purchase by a place'],
  [/^\/farm\/purchases\/bought$/, 'takes a purchase as bought this month'],
  [/^\/runway\/revisions\//, 'goes back to another revision'],
  [/^\/runway\/load$/, 'takes a document, and shows first what it changes'],
  [/^\/runway\/actual\//, 'takes a suggestion from the books'],
]
const changesByPurpose = (action: string) => changing.some(([pattern]) => pattern.test(action))

/** Forms that save the plan carry the revision they were opened with. */
const savesPlan = ({ method, fields }: BrowserForm) =>
  method === 'post' && fields.some(([name]) => name === 'planId')

const pathOf = (action: string) => action.replace(/[?#].*/, '')

interface Met {
  page: string
  form: BrowserForm
}

/** Every form that saves the plan, on every page that the addresses of the app and the links between its pages lead to. */
const planForms = async (app: TestApp, begin: (page: string) => boolean): Promise<Met[]> => {
  const waiting = app.routes
    .filter(({ method, path }) => method === 'GET' && !/[:*]/.test(path))
    .map(({ path }) => path)
    .filter(begin)
  const [seen, met] = [new Set<string>(), new Map<string, Met>()]
  for (let page = waiting.shift(); page !== undefined; page = waiting.shift()) {
    if (seen.has(page)) continue
    seen.add(page)
    const reply = await app.get(page)
    if (!(reply.headers.get('content-type') ?? '').includes('text/html')) continue
    const html = await reply.text()
    expect([page, reply.status]).toEqual([page, reply.status < 500 ? reply.status : 200])
    for (const form of browserForms(html, page))
      if (savesPlan(form)) met.set(pathOf(form.action), met.get(pathOf(form.action)) ?? { page, form })
    for (const [, href] of html.matchAll(/<a [^>]*href="(\/[^"#?]*)/g)) {
      const path = decodeURI(href!.replaceAll('&amp;', '&'))
      if (!/\.(json|csv|ics|pdf)$/.test(path) && ofPlan(path)) waiting.push(path)
    }
  }
  return [...met.values()]
}

/** Pages to which links are followed. Where a walk begins at every address of the app, forms of the plan elsewhere are met too. */
const ofPlan = (page: string) =>
  /^\/(runway|farm|slower-years|cover)\b/.test(page) && !/\/(revisions\/\d|\d{4}\b)/.test(page)

const planOf = (app: TestApp): Plan => latestRevision(app.books, 'ours')!.document as Plan
let forms = 0

/** Opens and posts every form unchanged. */
const expectKept = async (plan: Plan, begin = ofPlan) => {
  const app = testApp({ today: '2026-11-20' })
  app.savePlan(plan)
  const posted: string[] = []
  const found = await planForms(app, begin)
  for (const { page, form } of found) {
    const action = pathOf(form.action)
    if (changesByPurpose(action)) continue
    const before = planOf(app)
    const { revisionNo } = latestRevision(app.books, 'ours')!
    forms += 1
    const formId = `00000000-0000-4000-8000-${String(forms).padStart(12, '0')}`
    const reply = await app.post(form.action, { ...fieldsOf(form), formId, basedOn: String(revisionNo) })
    if (reply.status !== 303)
      throw new Error(`${page}: ${form.action} answered ${reply.status}: ${errorsIn(await reply.text())}`)
    const after = planOf(app)
    if (JSON.stringify(after) !== JSON.stringify(before))
      throw new Error(`${page}: ${form.action} changed ${JSON.stringify(differences(before, after))}`)
    expect([form.action, latestRevision(app.books, 'ours')!.revisionNo]).toEqual([form.action, revisionNo])
    posted.push(action)
  }
  app.close()
  const routes = app.routes
    .filter(({ method, path }) => method === 'POST' && ofPlan(path))
    .map(({ path }) => path)
  return { posted, met: found.map(({ form }) => pathOf(form.action)), routes }
}

const errorsIn = (html: string): string =>
  /<section class="error-summary"[\s\S]*?<\/section>/.exec(html)?.[0].replaceAll(/<[^>]*>/g, ' ') ??
  html.slice(0, 300)

test('every form that saves the plan, found by the app’s addresses, changes nothing when it is sent as it stands', async () => {
  const { posted, met, routes } = await expectKept(sample, () => true)
  for (const form of [
    '/runway/plan',
    '/runway/plan/household',
    '/farm/basics',
    '/farm/herds/sheep',
    '/slower-years/split',
    '/slower-years/phases/0',
    '/cover/marketplace',
  ])
    expect(posted).toContain(form)
  // Every address of the plan that takes a form was met with one, or stands on the list below.
  const shape = (path: string) => new RegExp(`^${path.replaceAll(/:\w+/g, '[^/]+')}$`)
  const unmet = [...new Set(routes)].filter((path) => !met.some((action) => shape(path).test(action)))
  expect(unmet.sort()).toEqual(withoutPlanForm)
}, 120_000)

/** What stands on no page that the sample's plan alone leads to, each with the reason. */
const withoutPlanForm = [
  ...[
    '/farm/batches/:id/edit',
    '/farm/batches/:id/mark',
    '/farm/batches/:id/tie',
    '/farm/batches/:id/tie-heads',
    '/farm/batches/:id/tie-hours',
    '/farm/batches/:id/untie',
    '/farm/batches/new',
    '/farm/notebook/:kind/:id/remove',
    '/farm/notebook/clock/:id/stop',
    '/farm/notebook/goods',
    '/farm/notebook/heads',
    '/farm/notebook/hours',
    '/farm/notebook/market',
    '/farm/notebook/phone',
    '/farm/notebook/table/goods/:id',
    '/farm/notebook/table/goods/:id/aside',
    '/farm/notebook/table/market/:id',
    '/farm/notebook/table/markets',
    '/farm/notebook/trip',
  ].map((path) => [path, 'writes into the notebook, not into the plan']),
  ['/farm/seen', 'takes what was seen, which the notebook has to hold'],
  ['/runway/actual/say', 'writes down the day’s saying'],
  ['/runway/actual/take', 'takes a suggestion, which books have to give'],
  ['/runway/chance', 'asks for runs'],
  ['/runway/chance/stop', 'stops them'],
  ['/runway/compare/copy', 'copies a plan under another name'],
  ['/runway/compare/open', 'opens another plan in this browser'],
  ['/runway/compare/use', 'puts another plan into use'],
  ['/runway/events/:place/remove', 'takes out a life event, which the sample has none of'],
  ['/runway/keep', 'keeps levers once they are pulled: see the test below'],
  ['/runway/questions/:question', 'asks'],
  ['/runway/questions/:question/stop', 'stops asking'],
  ['/runway/questions/:question/take', 'takes an answer once it is known'],
  ['/runway/revisions/:no/back', 'goes back to a revision'],
  ['/runway/revisions/mine', 'saves one’s own after another screen’s'],
  ['/runway/revisions/undo', 'takes the last revision back'],
].map(([path]) => path)

test('the longest list that a plan can hold is held by its form too', async () => {
  const app = testApp({ today: '2026-11-20' })
  const oneOffs = Array.from({ length: 720 }, (_, k) => ({
    id: `item-${k}`,
    name: `Item ${k}`,
    month: `${2027 + (k % 40)}-03`,
    cost: k / 7,
    todaysPrices: k % 2 === 0,
  }))
  const plan = planSchema.parse({ startMonth: '2027-01', household: { oneOffs } })
  app.savePlan(plan)
  const page = '/runway/plan/household'
  const form = await filledForm(app, page, { 'household.oneOffs.719.name': 'The last one' })
  expect((await app.post(page, form)).status).toBe(303)
  const [last] = oneOffs.splice(719)
  expect(planOf(app).household.oneOffs).toEqual([...oneOffs, { ...last, name: 'The last one' }])
  app.close()
})

test('levers that are kept change what was pulled, and leave every other figure with all its digits', async () => {
  for (const plan of fullPlans()) {
    const app = testApp({ today: '2026-11-20' })
    app.savePlan(plan)
    const page = await (await app.get('/runway?inflation=4')).text()
    const form = browserForms(page, '/runway').find(({ action }) => action === '/runway/keep')!
    expect((await app.post(form.action, fieldsOf(form))).status).toBe(303)
    expect(planOf(app)).toEqual({ ...plan, assumptions: { ...plan.assumptions, inflation: 0.04 } })
    app.close()
  }
})

test('nor on plans in which every field is filled', async () => {
  for (const plan of fullPlans()) await expectKept(plan)
}, 240_000)

test('nor on any plan', async () => {
  await fc.assert(
    fc.asyncProperty(randomPlan(), async (plan) => void (await expectKept(plan))),
    {
      seed: Number(process.env.FUZZ_SEED ?? '20261128'),
      numRuns: Number(process.env.PLAN_FORM_RUNS ?? '1'),
      endOnFailure: true,
    },
  )
}, 3_600_000)
