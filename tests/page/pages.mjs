// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The pages as people use them: opened in a browser without network, read by a checker and by what a screen
// reader would see, walked with the keyboard, enlarged, printed. Photographs of all of it stay in the folder.
//   node pages.mjs PROGRAM FOLDER
// Outside witnesses: html-validate for the grammar of HTML, axe-core for WCAG 2.2 A and AA.
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { mkdirSync, readFileSync, copyFileSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';
import { after, before, test } from 'node:test';
import { pathToFileURL } from 'node:url';
import { HtmlValidate } from 'html-validate';
import { chromium } from 'playwright-core';

const [program, folder] = process.argv.slice(2);
const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const at = (name) => path.join(folder, name);
const run = (...words) => execFileSync(program, [...words, '--quiet'], { stdio: ['ignore', 'pipe', 'inherit'] });
const pages = { proof: 'grid.png.html', sheet: 'hut.html', session: 'session.html', proofs: 'hut-proofs.html' };

let browser;
before(async () => {
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(folder, { recursive: true });
  run('demo', folder, '--megapixels', '0.6');
  copyFileSync(at('negative.tif'), at('hut.tif'));
  run('grid', at('negative.tif'), '--pack', at('pack.toml'), '-o', at('grid.png'), '--html', '--cell', '200',
    '--across', 'grade=1,2,3', '--down', 'bleach=0,50%,100%');
  run('plan', at('hut.tif'), at('negative.tif'), '--pack', at('pack.toml'), '-o', folder);
  browser = await chromium.launch({
    executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
    args: ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run',
      '--disable-background-networking', '--disable-component-update', '--disable-sync'],
  });
});
after(() => browser?.close());

// A page opened with everything it asks for and complains about written down.
const opened = async (name, options = {}) => {
  const context = await browser.newContext({ viewport: { width: 1280, height: 900 }, ...options });
  const page = await context.newPage();
  page.asked = [];
  page.complaints = [];
  page.on('request', (request) => page.asked.push(request.url()));
  page.on('console', (message) => page.complaints.push(message.text()));
  page.on('pageerror', (error) => page.complaints.push(error.message));
  await page.goto(pathToFileURL(at(name)).href);
  return page;
};

for (const [kind, name] of Object.entries(pages)) {
  test(`${kind}: is valid HTML`, () => {
    const report = new HtmlValidate({ extends: ['html-validate:recommended'], root: true })
      .validateFileSync(at(name));
    const found = report.results.flatMap((r) => r.messages)
      .map((m) => `${m.line}:${m.column} ${m.ruleId}: ${m.message.slice(0, 200)}`);
    assert.deepEqual(found, []);
  });

  test(`${kind}: asks nothing of the network and breaks no policy of its own`, async () => {
    const page = await opened(name);
    await page.waitForLoadState('networkidle');
    assert.deepEqual(page.asked.filter((url) => !/^(file|data):/.test(url)), []);
    assert.deepEqual(page.complaints, []);
    const broken = await page.evaluate(() => [...document.images].filter((i) => i.src !== 'data:,' && i.naturalWidth === 0).length);
    assert.equal(broken, 0);
    // The policy holds: a script or style that is not the page's own does nothing.
    const intruded = await page.evaluate(() => {
      const script = document.createElement('script');
      script.textContent = 'window.intruded = true';
      document.body.append(script);
      document.body.setAttribute('style', 'color: rgb(1, 2, 3)');
      return window.intruded === true || getComputedStyle(document.body).color === 'rgb(1, 2, 3)';
    });
    assert.equal(intruded, false);
    await page.context().close();
  });

  for (const width of [1280, 360])
    test(`${kind}: names, roles and contrast pass at ${width} pixels`, async () => {
      const page = await opened(name, { viewport: { width, height: 900 } });
      await page.evaluate(axe);
      const { violations, passes } = await page.evaluate(() => window.axe.run());
      assert.deepEqual(violations.map((v) => `${v.id}: ${v.nodes.map((n) => n.html.slice(0, 90)).join(' | ')}`), []);
      assert.ok(passes.some((p) => p.id === 'color-contrast'));
      // WCAG 1.4.10: the page itself never scrolls sideways, only its tables do.
      assert.equal(await page.evaluate(() => document.documentElement.scrollWidth <= window.innerWidth), true);
      await page.screenshot({ path: at(`${kind}-${width}.png`), fullPage: true });
      await page.context().close();
    });

  test(`${kind}: prints black on white, nothing of the screen left`, async () => {
    const page = await opened(name);
    await page.emulateMedia({ media: 'print' });
    const [wall, ink] = await page.evaluate(() => {
      const style = getComputedStyle(document.documentElement);
      return [style.backgroundColor, style.color];
    });
    assert.deepEqual([wall, ink], ['rgb(255, 255, 255)', 'rgb(0, 0, 0)']);
    for (const part of await page.locator('.onscreen, dialog, .skip').all())
      assert.equal(await part.isVisible(), false);
    await page.screenshot({ path: at(`${kind}-print.png`), fullPage: true });
    for (const format of ['A4', 'Letter']) {
      const pdf = (await page.pdf({ format, path: at(`${kind}-${format}.pdf`) })).toString('latin1');
      const sheets = pdf.match(/\/Type\s*\/Page\b/g).length;
      // A worksheet hangs on the wall as one sheet.
      assert.ok(sheets >= 1 && sheets <= (kind === 'sheet' ? 1 : 5), `${sheets} sheets of ${format}`);
    }
    await page.context().close();
  });
}

const focused = (page) => page.evaluate(() => document.activeElement.querySelector(':scope > img')?.alt || document.activeElement.id);
const spot = (page) => page.evaluate(() => {
  const field = document.getElementById('field'), view = field.querySelector('img');
  const f = field.getBoundingClientRect(), v = view.getBoundingClientRect();
  return [(f.left + f.width / 2 - v.left) / v.width, (f.top + f.height / 2 - v.top) / v.height];
});

// Arrow keys scroll smoothly: until the field has stood still for a while.
const atRest = async (page) => {
  for (let last = -1, still = 0; still < 5;) {
    const now = await page.locator('#field').evaluate((f) => f.scrollLeft);
    still = now === last ? still + 1 : 0;
    last = now;
    await page.waitForTimeout(40);
  }
};

test('proof: the keyboard reaches every print and the glass shows the same spot on each', async () => {
  const page = await opened(pages.proof, { viewport: { width: 700, height: 600 } });
  await page.keyboard.press('Tab');
  assert.equal(await page.locator('.skip').evaluate((e) => e === document.activeElement), true);
  assert.equal(await page.locator('.skip').isVisible(), true);
  await page.keyboard.press('Enter');
  while ((await focused(page)) !== 'grade 1, no bleach') await page.keyboard.press('Tab');
  const outline = await page.evaluate(() => getComputedStyle(document.activeElement).outlineStyle);
  assert.notEqual(outline, 'none');

  // Down the first column, then back and forth through the rows: every print once.
  const walked = [await focused(page)];
  for (const key of ['ArrowRight', 'ArrowRight', 'ArrowDown', 'ArrowLeft', 'ArrowLeft', 'ArrowDown', 'ArrowRight', 'ArrowRight']) {
    await page.keyboard.press(key);
    walked.push(await focused(page));
  }
  assert.equal(new Set(walked).size, 9);
  await page.keyboard.press('ArrowRight');
  assert.equal(await focused(page), walked.at(-1));  // no way past the edge

  await page.keyboard.press('ArrowLeft');
  await page.keyboard.press('Enter');
  assert.equal(await page.locator('#glass').evaluate((d) => d.open), true);
  assert.equal(await page.locator('#field').evaluate((e) => e === document.activeElement), true);
  await page.getByRole('button', { name: 'Twice as large' }).press('Enter');
  assert.equal(await page.locator('#larger').getAttribute('aria-pressed'), 'true');
  await page.locator('#field').focus();
  await page.keyboard.press('ArrowRight');
  await atRest(page);
  const before = await spot(page);
  await page.keyboard.press('Shift+ArrowUp');
  assert.match(await page.locator('#glass-title').textContent(), /^grade 2, 50 %/);
  await atRest(page);
  const afterwards = await spot(page);
  const pixel = 2 / 800;  // scroll positions are whole pixels of an 800 pixel print
  assert.ok(Math.abs(before[0] - afterwards[0]) < pixel && Math.abs(before[1] - afterwards[1]) < pixel,
    `${before} became ${afterwards}`);
  await page.evaluate(axe);
  const { violations } = await page.evaluate(() => window.axe.run());
  assert.deepEqual(violations.map((v) => `${v.id}: ${v.nodes.map((n) => n.html.slice(0, 90)).join(' | ')}`), []);
  await page.screenshot({ path: at('glass.png') });
  await page.keyboard.press('Escape');
  await page.waitForTimeout(100);  // a dialog tells of its closing one task later
  assert.match(await focused(page), /^grade 2, 50 %/);  // where the eye was last
  assert.deepEqual(page.complaints, []);
  await page.context().close();
});

test('proof: a click lays the clicked spot under the glass', async () => {
  const page = await opened(pages.proof, { viewport: { width: 900, height: 500 } });
  const print = page.locator('button.print').nth(4);
  await print.scrollIntoViewIfNeeded();
  const box = await print.boundingBox();
  const wanted = [0.5, 0.6];
  await print.click({ position: { x: wanted[0] * box.width, y: wanted[1] * box.height } });
  await page.getByRole('button', { name: 'Twice as large' }).click();
  const seen = await spot(page);
  const near = 0.05;  // the field cannot scroll past the print's edge
  assert.ok(Math.abs(seen[1] - wanted[1]) < near, `${seen}`);
  await page.getByRole('button', { name: 'Put the glass away' }).click();
  assert.equal(await page.locator('#glass').evaluate((d) => d.open), false);
  await page.context().close();
});

test('proof: without scripts all prints, numbers and words are there', async () => {
  const page = await opened(pages.proof, { javaScriptEnabled: false });
  assert.equal(await page.locator('figure img').count(), 9 + 2);
  assert.equal(await page.locator('.scripted').isVisible(), false);
  assert.equal(await page.locator('figcaption p').first().isVisible(), true);
  await page.context().close();
});

test('proof: a table with headings for both directions, landmarks and one main heading', async () => {
  const page = await opened(pages.proof);
  assert.equal(await page.getByRole('columnheader').count(), 3);
  assert.equal(await page.getByRole('rowheader').count(), 3);
  for (const role of ['banner', 'main', 'contentinfo']) assert.equal(await page.getByRole(role).count(), 1, role);
  assert.equal(await page.getByRole('heading', { level: 1 }).count(), 1);
  assert.equal(await page.getByRole('button', { name: /closest to fresh paper/i }).count(), 1);
  await page.context().close();
});
