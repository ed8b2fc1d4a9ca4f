// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The pages as people use them: opened in a browser without network, read by a checker and by what a screen
// reader would see, walked with the keyboard, enlarged, printed. Photographs of all of it stay in the folder.
//   node pages.mjs PROGRAM FOLDER
// Outside witnesses: html-validate for the grammar of HTML, axe-core for WCAG 2.2 A and AA.
import assert from 'node:assert/strict';
import { execFileSync, spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, copyFileSync, rmSync } from 'node:fs';
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
    // Words of a marked place stand inside its frame or outside, never across it, and on the picture.
    assert.deepEqual(await page.evaluate(() => [...document.querySelectorAll('.marked text')].filter((text) => {
      const words = text.getBBox(), frame = text.previousElementSibling.getBBox(), view = text.ownerSVGElement.viewBox.baseVal;
      const isInside = words.x >= frame.x && words.x + words.width <= frame.x + frame.width;
      const isOutside = words.y + words.height <= frame.y + 2 || words.y >= frame.y + frame.height - 2;
      return !(isInside || isOutside) || words.x < 0 || words.x + words.width > view.width;
    }).map((text) => text.textContent)), []);
    for (const part of await page.locator('.onscreen, dialog, .skip').all())
      assert.equal(await part.isVisible(), false);
    await page.screenshot({ path: at(`${kind}-print.png`), fullPage: true });
    // A4 and letter within the page's margins of 11 mm: no table is wider than its column.
    for (const width of [710, 732]) {
      await page.setViewportSize({ width, height: 1000 });
      assert.deepEqual(await page.evaluate(() => [...document.querySelectorAll('.listing table')]
        .filter((table) => table.offsetWidth > table.parentNode.clientWidth + 1).map((table) => table.caption?.textContent)), []);
    }
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

// The print in the bleach.
const trayed = async (options = {}, name = pages.proof) => {
  const page = await opened(name, options);
  await page.waitForSelector('#tray[data-ready]', { timeout: 15000 });
  return page;
};
const settled = (page) => page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));
const words = (page, id) => page.evaluate((id) => document.getElementById(id).value, id);

// The tray's print in another way, time and exposure; gives the stops that its scale has taken.
const trayAt = async (page, way, time, stops) => {
  const taken = await page.evaluate(([way, time, stops]) => {
    document.getElementById('tray-way').value = way;
    document.getElementById('tray-time').value = time;
    document.getElementById('tray-stops').value = stops;
    document.getElementById('tray-way').dispatchEvent(new Event('change'));
    return document.getElementById('tray-stops').value;
  }, [way, time, stops]);
  await settled(page);
  return taken;
};

test('tray: its pixels are those of print at 20 settings', async () => {
  const page = await trayed({ viewport: { width: 1400, height: 1000 } });
  const told = JSON.parse(await page.locator('#tray-numbers').textContent());
  let seed = 7;
  const chance = () => (seed = (seed * 1103515245 + 12345) % 2147483648) / 2147483648;
  for (let each = 0; each < 20; ++each) {
    const way = Math.floor(chance() * told.ways.length), time = Math.floor(chance() * 1000), step = Math.floor(chance() * 37) - 18;
    const stops = await trayAt(page, way, time, step / 12);
    const grade = told.ways[way].words.match(/^grade ([\d.]+)/)[1], develop = told.ways[way].words.match(/developed (\d+) s/)[1];
    run('print', at('negative.tif'), '--pack', at('pack.toml'), '--grade', grade, '--develop', develop,
      '--exposure', `${(told.ways[way].told * 2 ** stops).toFixed(6)}s`, '--bleach', `${(told.longest * time / 1000).toFixed(6)}s`,
      '--size', '1200', '--bits', '8', '--force', '-o', at('tray.png'));
    const worst = await page.evaluate(async ([png, border, width, height]) => {
      const bytes = Uint8Array.from(atob(png), (letter) => letter.charCodeAt(0));
      const image = await createImageBitmap(new Blob([bytes], { type: 'image/png' }), { colorSpaceConversion: 'none' });
      const canvas = Object.assign(document.createElement('canvas'), { width, height });
      const pen = canvas.getContext('2d');
      pen.drawImage(image, 0, 0);
      const asked = pen.getImageData(0, 0, width, height).data;
      const shown = document.getElementById('tray-print').getContext('2d').getImageData(border, border, width, height).data;
      let most = image.width === width && image.height === height ? 0 : -1;
      for (let i = 0; most >= 0 && i < shown.length; ++i) most = Math.max(most, Math.abs(shown[i] - asked[i]));
      return most;
    }, [readFileSync(at('tray.png')).toString('base64'), told.border, told.width, told.height]);
    assert.ok(worst >= 0 && worst <= 1, `way ${way}, time ${time}, ${stops} stops: ${worst} codes`);
  }
  await page.context().close();
});

// The demo of its usual size, made once.
const usualDemo = () => {
  const made = { negative: at('large/negative.tif'), pack: at('large/pack.toml') };
  if (!existsSync(made.negative)) run('demo', at('large'));
  return made;
};

// Samples of an uncompressed TIFF of 16 bits (TIFF 6.0), rounded to 8.
const rounded = (name) => {
  const file = readFileSync(at(name)), first = file.readUInt32LE(4), tags = {};
  for (let i = 0; i < file.readUInt16LE(first); ++i) tags[file.readUInt16LE(first + 2 + 12 * i)] = first + 2 + 12 * i;
  const values = (tag) => {
    const entry = tags[tag], count = file.readUInt32LE(entry + 4), size = file.readUInt16LE(entry + 2) === 3 ? 2 : 4;
    const from = count * size > 4 ? file.readUInt32LE(entry + 8) : entry + 8;
    return Array.from({ length: count }, (_, i) => file.readUIntLE(from + size * i, size));
  };
  const [bits, counts] = [values(258), values(279)];
  assert.deepEqual([bits, values(259)], [[16, 16, 16], [1]]);
  const strips = Buffer.concat(values(273).map((offset, i) => file.subarray(offset, offset + counts[i])));
  const codes = Buffer.alloc(strips.length / 2);
  for (let i = 0; i < codes.length; ++i) codes[i] = Math.round(strips.readUInt16LE(2 * i) / 257);
  return codes;
};

// Small pixels of a larger scan are means of many; the demo's windows and branches are edges of all kinds. A
// print of 8 bits takes the nearest colour, and that may be the farther code of a channel; so it is held to
// the codes of 16 bits.
test('tray: of a scan larger than it, its pixels are those of print at 8 settings', async () => {
  mkdirSync(at('edges'));
  const { negative, pack } = usualDemo();
  run('grid', negative, '--pack', pack, '-o', at('edges/grid.jpg'), '--html', '--across', 'grade=0,2,5', '--down', 'bleach=0,100%');
  const page = await trayed({}, 'edges/grid.jpg.html');
  const told = JSON.parse(await page.locator('#tray-numbers').textContent());
  assert.equal(Math.max(told.width, told.height), 1200);
  assert.ok(told.finer > 1000, `${told.finer} pixels are finer`);
  let seed = 11;
  const chance = () => (seed = (seed * 1103515245 + 12345) % 2147483648) / 2147483648;
  for (let each = 0; each < 8; ++each) {
    // The hardest way at every second setting, and there the longest time first.
    const hardest = told.ways.findIndex((way) => way.words.startsWith('grade 5'));
    const way = each % 2 ? Math.floor(chance() * told.ways.length) : hardest;
    const time = each ? Math.floor(chance() * 1001) : 1000, step = Math.floor(chance() * 49) - 24;
    const stops = await trayAt(page, way, time, step / 12);
    const grade = told.ways[way].words.match(/^grade ([\d.]+)/)[1], develop = told.ways[way].words.match(/developed (\d+) s/)[1];
    run('print', negative, '--pack', pack, '--grade', grade, '--develop', develop,
      '--exposure', `${(told.ways[way].told * 2 ** stops).toFixed(6)}s`, '--bleach', `${(told.longest * time / 1000).toFixed(6)}s`,
      '--size', '1200', '--bits', '16', '--force', '-o', at('edges/print.tif'));
    const worst = await page.evaluate(([codes, border, width, height]) => {
      const asked = atob(codes);
      const shown = document.getElementById('tray-print').getContext('2d').getImageData(border, border, width, height).data;
      let most = asked.length === 3 * width * height ? 0 : -1;
      for (let i = 0; most >= 0 && i < asked.length; ++i)
        most = Math.max(most, Math.abs(asked.charCodeAt(i) - shown[4 * Math.floor(i / 3) + i % 3]));
      return most;
    }, [rounded('edges/print.tif').toString('base64'), told.border, told.width, told.height]);
    assert.ok(worst >= 0 && worst <= 1, `way ${way}, time ${time}, ${stops} stops: ${worst} codes`);
  }
  await page.context().close();
});

test('tray: keys, mouse and touch move it, at 1400 and at 390 pixels', async () => {
  for (const width of [1400, 390]) {
    const page = await trayed({ viewport: { width, height: 1000 }, hasTouch: true });
    const print = page.locator('#tray-print');
    await print.focus();
    const first = await words(page, 'tray-time-words'), light = await words(page, 'tray-stops-words');
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('ArrowUp');
    await settled(page);
    assert.notEqual(await words(page, 'tray-time-words'), first);
    assert.notEqual(await words(page, 'tray-stops-words'), light);
    for (const [key, id] of [['f', 'tray-fresh'], ['b', 'tray-bath']]) {
      await page.keyboard.press(key);
      await settled(page);
      assert.equal(await page.locator(`#${id}`).getAttribute('aria-pressed'), 'true');
      if (id === 'tray-fresh') assert.match(await page.locator('#tray-state').textContent(), /^Fresh paper/);
      await page.screenshot({ path: at(`${id}-${width}.png`) });
      await page.keyboard.press(key);
    }
    const box = await print.boundingBox();
    await page.mouse.move(box.x + box.width / 3, box.y + box.height / 2);
    await settled(page);
    assert.match(await words(page, 'tray-reading'), /^density \d\.\d\d, L\* [\d.]+ \(95 %: \d+ to \d+\)$/);
    // Before beside after: the line goes where the mouse or the finger drags it.
    await page.keyboard.press('s');
    await page.mouse.down();
    await page.mouse.move(box.x + box.width * 0.7, box.y + box.height / 2);
    await page.mouse.up();
    const dragged = Number(await page.locator('#tray-line').inputValue());
    assert.ok(dragged > 600 && dragged < 900, `${dragged}`);
    await page.touchscreen.tap(box.x + box.width / 4, box.y + box.height / 2);
    await settled(page);
    assert.ok(Number(await page.locator('#tray-line').inputValue()) < 350);
    // Each scale is as wide as the page allows.
    const scale = await page.locator('#tray-time').boundingBox();
    assert.ok(scale.width > 0.6 * Math.min(width, 1000), `${scale.width}`);
    await page.screenshot({ path: at(`tray-${width}.png`), fullPage: true });
    // Played, it comes to the end of its scale and stands still.
    await page.locator('#tray-time').evaluate((scale) => { scale.value = 960; });
    await page.locator('#tray-pace').selectOption('20');
    await page.locator('#tray-play').click();
    await page.waitForFunction(() => document.getElementById('tray-play').getAttribute('aria-pressed') === 'false');
    assert.equal(await page.locator('#tray-time').inputValue(), '1000');
    assert.deepEqual(page.complaints, []);
    await page.context().close();
  }
});

// The print and all that moves it are seen at once, as they are and with the line between before and after.
test('tray: picture and controls fit into usual windows together', async () => {
  for (const [width, height] of [[1200, 900], [1366, 768]]) {
    const page = await trayed({ viewport: { width, height } });
    const slider = await page.locator('#tray-time').boundingBox();
    assert.ok(slider.y + slider.height <= height, `${width} x ${height}: the slider ends at ${slider.y + slider.height}`);
    await page.locator('#tray-print').focus();
    await page.keyboard.press('s');
    await settled(page);
    const { top, bottom, picture } = await page.evaluate(() => {
      const box = (what) => document.querySelector(what).getBoundingClientRect();
      return { top: box('#tray-state').top, bottom: box('#tray .switches').bottom, picture: box('#tray-print').height };
    });
    assert.ok(bottom - top <= height, `${width} x ${height}: ${bottom - top}`);
    assert.ok(picture >= 0.5 * height, `${width} x ${height}: a picture of ${picture}`);
    await page.context().close();
  }
});

// Whatever the pack: words beside the scale's marks stay on the page and off each other.
test('tray: the words of its marks do not meet', async () => {
  // On a long scale all marks lie near its beginning.
  run('grid', at('negative.tif'), '--pack', at('pack.toml'), '-o', at('long.png'), '--html', '--cell', '80',
    '--across', 'grade=2', '--down', 'bleach=50%,900%');
  for (const [width, name] of [[1400, pages.proof], [360, pages.proof], [360, 'long.png.html']]) {
    const page = await trayed({ viewport: { width, height: 900 } }, name);
    const count = await page.locator('#tray-way option').count();
    for (let way = 0; way < count; ++way) {
      await trayAt(page, String(way), 0, 0);
      const { marks, wide } = await page.evaluate(() => {
        // Of the words alone, not of the room above them.
        const words = (mark) => { const range = document.createRange(); range.selectNodeContents(mark); return range.getBoundingClientRect(); };
        return { wide: document.documentElement.scrollWidth, marks: [...document.querySelectorAll('.mark:not([hidden])')].map((mark) => {
          const { left, right, top, bottom } = words(mark);
          return { words: mark.textContent, left, right, top, bottom };
        }) };
      });
      assert.ok(wide <= width && marks.length >= 2);
      for (const [i, one] of marks.entries()) {
        assert.ok(one.left >= 0 && one.right <= width, `way ${way}: ${JSON.stringify(one)}`);
        for (const other of marks.slice(i + 1))
          assert.ok(one.right <= other.left || other.right <= one.left || one.bottom <= other.top || other.bottom <= one.top,
            `${name}, ${width}, way ${way}: ${JSON.stringify([one, other])}`);
      }
    }
    await page.context().close();
  }
});

test('tray: steps once a second where motion is not wanted; its marks lie in their order', async () => {
  const page = await trayed({ reducedMotion: 'reduce' });
  await page.locator('#tray-time').evaluate((scale) => { scale.value = 0; });
  await page.locator('#tray-pace').selectOption('1');
  await page.locator('#tray-play').click();
  await page.waitForTimeout(500);
  assert.equal(await page.locator('#tray-time').inputValue(), '0');
  await page.waitForFunction(() => Number(document.getElementById('tray-time').value) > 0);
  await page.locator('#tray-play').click();
  const places = await page.evaluate(() => ['clears', 'over'].map((name) => parseFloat(document.querySelector(`[data-mark=${name}]`).style.left)));
  assert.ok(places[0] > 0 && places[1] > 1.2 * places[0] && places[1] <= 100, `${places}`);
  await page.context().close();
});

test('tray: every page stays under 4 MB, of the usual size, of large cells and of many', () => {
  const { negative, pack } = usualDemo();
  const grid = (name, ...words) => {
    const told = spawnSync(program, ['grid', negative, '--pack', pack, '-o', at(`large/${name}.jpg`), '--html', ...words], { encoding: 'utf8' });
    assert.equal(told.status, 0, told.stderr);
    const page = readFileSync(at(`large/${name}.jpg.html`), 'utf8');
    assert.ok(page.length < 4e6, `${name}: ${page.length}`);
    const side = Math.max(...page.match(/<img src="data:image\/jpeg[^>]*width="(\d+)" height="(\d+)"/).slice(1).map(Number));
    return { notes: told.stderr, side };
  };
  const plain = grid('usual');
  assert.ok(plain.side >= 400, `${plain.side}`);
  assert.doesNotMatch(plain.notes, /4 MB/);
  assert.ok(grid('large', '--cell', '1500').side >= 400);
  const many = grid('many', '--across', 'grade=0,0.5,1,1.5,2,2.5,3,3.5,4,5', '--down', 'bleach=0,10%,20%,30%,40%,50%,60%,70%,80%,90%,100%,150%');
  assert.ok(many.side >= 200, `${many.side}`);
  assert.match(many.notes, /its page holds the small prints at \d+ pixels, so that it stays under 4 MB/);
});

test('proof: letters of charts can be read on a phone', async () => {
  const page = await opened(pages.proof, { viewport: { width: 390, height: 844 } });
  const charts = await page.locator('.chart img').evaluateAll((all) => all.map((each) => each.width / each.naturalWidth));
  assert.ok(charts.length >= 2);
  // The smallest letters are of 11 units; below 8 pixels nobody reads them (common practice, no source).
  for (const scale of charts) assert.ok(11 * scale >= 8, `letters of ${(11 * scale).toFixed(1)} pixels`);
  const wide = await page.evaluate(() => document.documentElement.scrollWidth);
  assert.ok(wide <= 390, `the page is ${wide} pixels wide`);
  // What is cut off says that it can be moved: on a phone, and only there.
  const hints = page.locator('.chart .sideways, .wall .sideways');
  assert.equal(await hints.count(), charts.length + 1);
  for (const hint of await hints.all()) assert.equal(await hint.isVisible(), true);
  await page.setViewportSize({ width: 1200, height: 900 });
  for (const hint of await hints.all()) assert.equal(await hint.isVisible(), false);
  await page.context().close();
});

test('proof: six prints stand in a row at 1200 pixels', async () => {
  run('grid', at('negative.tif'), '--pack', at('pack.toml'), '-o', at('six.png'), '--html', '--cell', '120',
    '--across', 'grade=0,1,2,3,4,5', '--down', 'bleach=0,100%');
  const page = await opened('six.png.html', { viewport: { width: 1200, height: 900 } });
  const rights = await page.locator('button.print').evaluateAll((all) => all.map((each) => each.getBoundingClientRect().right));
  assert.equal(rights.length, 12);
  for (const right of rights) assert.ok(right <= 1200 - 32, `${right}`);
  assert.equal(await page.locator('.wall').evaluate((wall) => wall.scrollWidth <= wall.clientWidth), true);
  await page.context().close();
});

test('proof: printed, its captions can be read and its reading instructions come before its charts', async () => {
  const page = await opened(pages.proof);
  const headings = await page.getByRole('heading', { level: 2 }).allTextContents();
  assert.ok(headings.indexOf('How to read it') < headings.indexOf('Negative and paper'));
  await page.emulateMedia({ media: 'print' });
  const sizes = await page.locator('figcaption').evaluateAll((all) => all.map((each) => parseFloat(getComputedStyle(each).fontSize)));
  // 7.5 points of 96 pixels an inch (common practice, no source).
  for (const size of sizes) assert.ok(size >= 10, `${size}`);
  await page.context().close();
});

const planned = (into, names) => {
  mkdirSync(at(into));
  for (const name of names) copyFileSync(at('negative.tif'), at(`${into}/${name}.tif`));
  run('plan', ...names.map((name) => at(`${into}/${name}.tif`)), '--pack', at('pack.toml'), '-o', at(into));
};

test('session and worksheet: on a phone no caption is cut, no dilution torn, and what is filled in by hand is in sight', async () => {
  const long = 'anameofsixtyletterswithoutanyblankinitsothatnothingmaywrapit';
  planned('long', [long, `${long}2`]);
  for (const name of ['long/session.html', `long/${long}.html`, pages.session, pages.sheet]) {
    const page = await opened(name, { viewport: { width: 380, height: 800 } });
    const found = await page.evaluate(() => {
      const right = (each) => Math.round(each.getBoundingClientRect().right);
      const lines = (text) => {
        const range = document.createRange();
        range.setStart(text, 0);
        range.setEnd(text, text.data.match(/^1\+\d+/)[0].length);
        return range.getClientRects().length;
      };
      const cells = [...document.querySelectorAll('td')].filter((each) => /^1\+\d/.test(each.textContent));
      return {
        captions: [...document.querySelectorAll('caption')].map(right),
        byHand: [...document.querySelectorAll('th')].filter((each) => /^(Seen|Pulled at)$/.test(each.textContent)).map(right),
        names: [...document.querySelectorAll('figcaption')].filter((each) => each.scrollWidth > each.clientWidth).length,
        torn: cells.filter((each) => lines(each.firstChild) > 1).length,
      };
    });
    assert.ok(found.captions.length + found.byHand.length > 0);
    for (const edge of [...found.captions, ...found.byHand]) assert.ok(edge <= 380, `${name}: ${edge}`);
    assert.equal(found.names, 0, name);
    assert.equal(found.torn, 0, name);
    await page.context().close();
  }
  const wide = await opened('long/session.html');
  await wide.emulateMedia({ media: 'print' });
  await wide.setViewportSize({ width: 710, height: 1000 });
  assert.equal(await wide.evaluate(() => document.documentElement.scrollWidth), 710);
  await wide.context().close();
});

test('session: on a phone all its columns are in sight, its pictures begin on one line', async () => {
  // Names as long as they may be untorn, and longer.
  planned('named', ['sixteen_letters_', 'church_window_with_snow_1957', 'hut', 'mill']);
  for (const width of [390, 360]) {
    const page = await opened('named/session.html', { viewport: { width, height: 844 } });
    const cut = await page.locator('.listing').evaluateAll((all) => all.filter((each) => each.scrollWidth > each.clientWidth)
      .map((each) => `${each.getAttribute('aria-label')}: ${each.scrollWidth} in ${each.clientWidth}`));
    assert.deepEqual(cut, [], `${width}`);
    await page.context().close();
  }
  const page = await opened('named/session.html', { viewport: { width: 1200, height: 900 } });
  const tops = await page.locator('.small img').evaluateAll((all) => all.map((each) => Math.round(each.getBoundingClientRect().top)));
  assert.equal(tops.length, 4);
  assert.equal(new Set(tops).size, 1, `${tops}`);
  await page.context().close();
});

test('session and worksheet: steps have numbers, as in the text', async () => {
  for (const name of [pages.session, pages.sheet]) {
    const page = await opened(name);
    const numbers = await page.locator('ol.steps li').evaluateAll((all) => all.map((each) => getComputedStyle(each, '::after').content));
    assert.ok(numbers.length >= 4);
    for (const number of numbers) assert.match(number, /counter\(list-item\) "\."/);
    await page.context().close();
  }
});

test('worksheet: printed, two millimetres lie between its first words and the picture', async () => {
  const page = await opened(pages.sheet);
  await page.emulateMedia({ media: 'print' });
  const gap = await page.evaluate(() => document.querySelector('main .marked, main figure').getBoundingClientRect().top
    - document.querySelector('header').lastElementChild.getBoundingClientRect().bottom);
  assert.ok(gap >= 2 / 25.4 * 96, `${gap} pixels`);
  await page.context().close();
});

test('session: of twelve prints is two sheets', async () => {
  planned('twelve', [...Array(12).keys()].map((i) => `n${i + 1}`));
  const page = await opened('twelve/session.html');
  for (const format of ['A4', 'Letter']) {
    const pdf = (await page.pdf({ format, path: at(`twelve-${format}.pdf`) })).toString('latin1');
    assert.equal(pdf.match(/\/Type\s*\/Page\b/g).length, 2, format);
  }
  await page.context().close();
});

test('proof: the slider rounds as the words under the prints do', async () => {
  const page = await opened('hut-proofs.html');
  const marked = await page.locator('.closest figcaption p').first().textContent();
  const [, exposure, bleach] = marked.match(/, ([\d.]+ s), bleach ([\d.]+ s)/);
  assert.ok((await page.locator('#tray-time-words').textContent()).startsWith(`${bleach},`));
  assert.ok((await page.locator('#tray-stops-words').textContent()).endsWith(`, ${exposure}`));
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
