// Finds Chromium for the browser tests, installs Debian's package when root, or says in one line what to install.
import { spawnSync } from 'node:child_process'
import { existsSync } from 'node:fs'

const places = [
  process.env.CHROMIUM,
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
]

export const findChromium = () => places.find((place) => place && existsSync(place))

const isRoot = process.getuid?.() === 0

const install = () => {
  if (!isRoot || !existsSync('/usr/bin/apt-get')) return
  console.log('Installing Chromium from the Debian packages for the browser tests …')
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' }
  spawnSync('apt-get', ['update', '-qq'], { stdio: 'ignore', env })
  spawnSync('apt-get', ['install', '-y', '-qq', '--no-install-recommends', 'chromium'], {
    stdio: 'ignore',
    env,
  })
}

if (process.argv[1] === import.meta.filename) {
  if (!findChromium()) install()
  if (!findChromium()) {
    console.error(
      'The browser tests need Chromium: install it (Debian: apt-get install chromium) or set CHROMIUM to its path.',
    )
    process.exit(1)
  }
}
