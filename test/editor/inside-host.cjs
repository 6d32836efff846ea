/** Runs inside the extension's host, with the editor's own interface and no window to look at. */
const assert = require('node:assert/strict');
const vscode = require('vscode');

const TRIES = 100;

/** Tries again until something comes back, for ten seconds. */
async function eventually(what, find) {
  for (let tries = 0; tries < TRIES; tries++) {
    const found = await find();
    if (found) return found;
    await new Promise((done) => setTimeout(done, 100));
  }
  throw new Error(`${what} did not come`);
}

const { commands, languages, Uri, window, workspace } = vscode;

async function openSample() {
  const uri = Uri.joinPath(workspace.workspaceFolders[0].uri, 'harbour-lamps.lesson');
  const document = await workspace.openTextDocument(uri);
  const editor = await window.showTextDocument(document);
  assert.equal(document.languageId, 'stringcourse');
  return { uri, document, editor };
}

const errorsOf = (uri) =>
  languages.getDiagnostics(uri).filter(({ severity }) => severity === vscode.DiagnosticSeverity.Error);

const placeOf = (document, words) => document.positionAt(document.getText().indexOf(words));

const tests = {
  async 'findings, and the fix that goes with one'() {
    const { uri, document, editor } = await openSample();
    const start = placeOf(document, 'tones 3 R 5').translate(0, 'tones 3 R '.length);
    const range = new vscode.Range(start, start.translate(0, 1));
    await editor.edit((edit) => edit.replace(range, '8'));
    const [finding] = await eventually('a finding', () => (errorsOf(uri).length > 0 ? errorsOf(uri) : undefined));
    assert.equal(finding.source, 'stringcourse');
    assert.equal(finding.code.value ?? finding.code, 'unknown-tone');
    assert.deepEqual(finding.range, range);
    const actions = await eventually('a fix', async () => {
      const found = await commands.executeCommand('vscode.executeCodeActionProvider', uri, range);
      return found.some(({ edit }) => edit) ? found : undefined;
    });
    await workspace.applyEdit(actions.find(({ edit }) => edit).edit);
    assert.equal(document.getText(range), 'R');
    await editor.edit((edit) => edit.replace(range, '5'));
    await eventually('the mending', () => errorsOf(uri).length === 0);
  },
  async 'a hover over a chord'() {
    const { uri, document } = await openSample();
    const place = placeOf(document, 'D | Em');
    const hovers = await eventually('a hover', async () => {
      const found = await commands.executeCommand('vscode.executeHoverProvider', uri, place);
      return found.length > 0 ? found : undefined;
    });
    assert.match(hovers[0].contents[0].value, /Dadd11/);
  },
  async 'an outline'() {
    const { uri } = await openSample();
    const symbols = await eventually('an outline', () =>
      commands.executeCommand('vscode.executeDocumentSymbolProvider', uri),
    );
    const names = symbols.flatMap((one) => [one, ...one.children]).map(({ name }) => name);
    for (const name of ['lamp', 'quay', 'ripple', 'swell'])
      assert.ok(
        names.some((one) => one.includes(name)),
        `${name} in ${names}`,
      );
  },
  async 'the commands that package.json names'() {
    const { contributes } = vscode.extensions.getExtension('stringcourse.stringcourse').packageJSON;
    const there = await commands.getCommands(true);
    for (const { command } of contributes.commands) assert.ok(there.includes(command), command);
  },
  async 'a new lesson that has no error'() {
    await commands.executeCommand('stringcourse.newLesson');
    const { document } = window.activeTextEditor;
    assert.equal(document.languageId, 'stringcourse');
    assert.equal(document.isUntitled, true);
    await eventually('an outline', () => commands.executeCommand('vscode.executeDocumentSymbolProvider', document.uri));
    assert.deepEqual(languages.getDiagnostics(document.uri), []);
  },
  async 'one preview a lesson, beside it and without the focus'() {
    const { document } = await openSample();
    const previews = () =>
      window.tabGroups.all
        .flatMap((group) => group.tabs)
        .filter(({ label }) => label === 'Preview harbour-lamps.lesson');
    await commands.executeCommand('stringcourse.openPreview');
    await eventually('a preview', () => previews().length > 0);
    await commands.executeCommand('stringcourse.openPreview');
    assert.equal(previews().length, 1);
    assert.notEqual(previews()[0].group.viewColumn, window.activeTextEditor.viewColumn);
    assert.equal(window.activeTextEditor.document, document);
  },
};

exports.run = async () => {
  for (const [name, test] of Object.entries(tests)) {
    try {
      await test();
      console.log(`ok ${name}`);
    } catch (failure) {
      console.error(`not ok ${name}: ${failure.stack}`);
      throw failure;
    }
  }
};
