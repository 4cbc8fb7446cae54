import { expect, test } from 'vitest'
import { testApp } from './test-app.ts'

const formId = (n: number) => `00000000-0000-4000-8000-${String(n).padStart(12, '0')}`

test('changes made at another screen are told once, and one’s own are not', async () => {
  const app = testApp()
  const [mine, theirs] = ['dooryard-browser=browser-mine0001', 'dooryard-browser=browser-theirs01']
  const read = async (cookie: string) => (await app.get('/settings', { cookie })).text()
  await read(mine)
  await read(theirs)
  const who = {
    formId: formId(1),
    farmName: 'Wren',
    region: 'contiguous',
    'people.0.name': 'Mara',
    'people.0.born': '1981-06-14',
  }
  expect((await app.post('/start/who', who, { cookie: theirs })).status).toBe(303)
  expect(await read(theirs)).not.toContain('Meanwhile')
  expect(await read(mine)).toMatch(/Changed on another device: [^<]*A plan was saved/)
  expect(await read(mine)).not.toContain('Meanwhile')
  app.close()
})
