// A phone in the home network: the house's own certificate made by one press, and what to do on computer and phone, step by step.
import { Hono } from 'hono'
import { z } from 'zod'
import { PhonePage } from '#views/farm-notebook/phone.tsx'
import { answer, moveOn, notFound, type PageContext } from '#web/forms/answer.tsx'
import { formIdField, requiredText } from '#web/forms/fields.ts'
import {
  checkForm,
  type FormErrors,
  newFormId,
  openingForm,
  statusOf,
  type TypedForm,
} from '#web/forms/form.ts'
import type { PageRoom } from '#web/forms/page-room.ts'
import { posted } from '#web/forms/posted.ts'
import type { PageEnv } from '#web/server/context.ts'
import {
  authorityFile,
  homeAddresses,
  houseCertificate,
  isHomeAddress,
  makeHouseCertificate,
} from '#web/server/house-certificate.ts'

const home = '/farm/notebook/phone'

export const phonePages: PageRoom = {
  build: () =>
    new Hono<PageEnv>()
      .get(home, (c) => showPhone(c, openingForm({ address: homeAddresses()[0] ?? '' }), {}))
      .post(home, postAddress)
      .get(`${home}/house.crt`, (c) => {
        const file = authorityFile(c.var.web.books.path)
        return file === null
          ? notFound(c, 'No certificate was made yet.')
          : c.body(new Uint8Array(file), 200, {
              'Content-Type': 'application/x-x509-ca-cert',
              'Content-Disposition': 'attachment; filename="house.crt"',
            })
      }),
}

const addressForm = z.object({
  formId: formIdField(),
  address: requiredText('Enter the address of this computer, like 192.168.1.20', 200).refine(isHomeAddress, {
    error: 'Enter an address like 192.168.1.20 or a name like barn.local, without http and without a port',
  }),
})

const postAddress = (c: PageContext) =>
  posted(c, {
    check: (typed) => checkForm(addressForm, typed),
    again: (typed, errors) => showPhone(c, typed, errors),
    keep({ address }, typed) {
      const { books, clock, isLoopback } = c.var.web
      if (!isLoopback)
        return showPhone(c, typed, {
          address:
            'Make it at the computer itself: stop Dooryard, start it without --host, and open this page there',
        })
      makeHouseCertificate(books.path, address, clock.now())
      return moveOn(c, home, 'The certificate is made. Go on with the next step.')
    },
  })

function showPhone(c: PageContext, typed: TypedForm, errors: FormErrors) {
  const { books, clock, access, isLoopback } = c.var.web
  const certificate = houseCertificate(books.path, clock.now())
  return answer(c, {
    title: 'A phone in the yard',
    status: statusOf(errors),
    figures: { hasPassphrase: access.isSet(), certificate, isReachable: !isLoopback },
    page: () => (
      <PhonePage
        hasPassphrase={access.isSet()}
        certificate={certificate}
        isReachable={!isLoopback}
        addresses={homeAddresses()}
        typed={typed}
        errors={errors}
        formId={typed.value('formId') || newFormId()}
      />
    ),
  })
}
