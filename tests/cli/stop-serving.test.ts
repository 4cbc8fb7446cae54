import { once } from 'node:events'
import { Agent, createServer, get, type Server } from 'node:http'
import type { AddressInfo } from 'node:net'
import { setTimeout as wait } from 'node:timers/promises'
import { createAdaptorServer } from '@hono/node-server'
import { afterEach, expect, test } from 'vitest'
import { answersOf } from '#src/cli/serving/stop-serving.ts'
import { inTurns } from '#web/server/turns.ts'

const agents: Agent[] = []
afterEach(() => {
  for (const agent of agents.splice(0)) agent.destroy()
})

/** A house whose pages take their time and read books that may be closed under them. */
const slowHouse = async (making: () => Promise<unknown>, patience?: number) => {
  const books = { isOpen: true }
  const broken: string[] = []
  const answers = answersOf(
    {
      fetch: async (request) => {
        const { pathname } = new URL(request.url)
        await making()
        if (!books.isOpen) broken.push(pathname)
        return new Response(pathname)
      },
    },
    patience,
  )
  const pages = inTurns(answers)
  const server = createAdaptorServer({ fetch: (request) => pages.fetch(request) }) as Server
  answers.noteThoseOf(server)
  server.listen(0, '127.0.0.1')
  await once(server, 'listening')
  const { port } = server.address() as AddressInfo
  const stop = async () => {
    await answers.finish(server)
    books.isOpen = false
  }
  return { port, server, broken, stop }
}

interface Said {
  text: string
  connection: string | undefined
}

const asked = (port: number, path: string, agent: Agent) =>
  new Promise<Said>((resolve, reject) => {
    get({ port, path, agent }, (answer) => {
      let text = ''
      answer.on('data', (piece) => {
        text += piece
      })
      answer.on('end', () => resolve({ text, connection: answer.headers.connection }))
    }).on('error', reject)
  })

const keeping = (maxSockets: number): Agent => {
  const agent = new Agent({ keepAlive: true, maxSockets })
  agents.push(agent)
  return agent
}

test('twenty who wait when it is stopped are answered, each told that it is the last answer, before the books are closed', async () => {
  let make = () => {}
  const made = new Promise<void>((resolve) => {
    make = resolve
  })
  const { port, stop, broken, server } = await slowHouse(() => made)
  const agent = keeping(20)
  let arrived = 0
  const all = new Promise<void>((resolve) => {
    server.on('request', () => {
      arrived += 1
      if (arrived === 20) resolve()
    })
  })
  const waiting = Array.from({ length: 20 }, (_, client) => asked(port, `/${client}`, agent))
  await all
  const stopped = stop()
  make()
  await stopped
  const said = await Promise.all(waiting)
  expect(said.map(({ text }) => text)).toEqual(Array.from({ length: 20 }, (_, client) => `/${client}`))
  expect(said.every(({ connection }) => connection === 'close')).toBe(true)
  expect(broken).toEqual([])
  await expect(asked(port, '/later', agent)).rejects.toThrow('ECONNREFUSED')
})

test('clients that ask again and again do not keep it from stopping, and none finds the books closed', async () => {
  const { port, stop, broken } = await slowHouse(() => wait(5))
  let answered = 0
  const client = async (agent: Agent) => {
    for (;;) {
      await asked(port, '/again', agent)
      answered += 1
    }
  }
  const clients = Array.from({ length: 5 }, () => client(keeping(1)).catch((error) => error.code as string))
  while (answered < 20) await wait(5)
  const begun = performance.now()
  await stop()
  expect(performance.now() - begun).toBeLessThan(3000)
  // A question that was still on its way is not let in.
  for (const told of await Promise.all(clients)) expect(told).toMatch(/^(ECONNREFUSED|ECONNRESET)$/)
  await wait(50)
  expect(broken).toEqual([])
})

test('one that takes longer than the patience is cut off, and what waited behind it reads no closed books', async () => {
  const { port, stop } = await slowHouse(() => wait(60_000, undefined, { ref: false }), 100)
  const cut = asked(port, '/long', keeping(1)).catch((error) => error.code as string)
  await wait(50)
  await stop()
  expect(await cut).toBe('ECONNRESET')
  const answers = answersOf({ fetch: () => new Response('read the books') })
  const server = createServer().listen(0)
  await answers.finish(server)
  expect((await answers.fetch(new Request('http://localhost/'))).status).toBe(503)
})
