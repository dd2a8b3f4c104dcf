// Speaks to the server by the library that VS Code speaks by, and has that say whether each answer
// is of the protocol's form: `node protocol.js COMMAND FILE`.
const cp = require('child_process'), fs = require('fs'), url = require('url');
const rpc = require('vscode-jsonrpc/node'), lsp = require('vscode-languageserver-protocol');
const [command, file] = process.argv.slice(2);
const uri = url.pathToFileURL(file).href;
const server = cp.spawn(command, ['language-server'], { stdio: ['pipe', 'pipe', 'inherit'] });
const connection = rpc.createMessageConnection(
  new rpc.StreamMessageReader(server.stdout), new rpc.StreamMessageWriter(server.stdin));
let text = fs.readFileSync(file, 'utf8'), waits = () => {}, version = 1;
const check = (name, is, each) => {
  for (const one of each) if (!is(one)) console.log(`not a ${name}: ${JSON.stringify(one)}`);
  return each;
};
connection.onNotification('textDocument/publishDiagnostics', sent => {
  check('finding', lsp.Diagnostic.is, sent.diagnostics);
  check('link', lsp.CodeDescription.is, sent.diagnostics.map(one => one.codeDescription));
  if (sent.version === version) waits(sent.diagnostics);
});
connection.onRequest('client/registerCapability', () => null);
connection.listen();
const found = () => new Promise(done => { waits = done; });
const asks = (method, more) => connection.sendRequest(`textDocument/${method}`, { textDocument: { uri }, ...more });
const apply = edits => {
  const document = { ...lines(), uri };
  text = edits.sort((a, b) => b.range.start.line - a.range.start.line || b.range.start.character - a.range.start.character)
    .reduce((now, edit) => now.slice(0, document.at(edit.range.start)) + edit.newText + now.slice(document.at(edit.range.end)), text);
  connection.sendNotification('textDocument/didChange',
    { textDocument: { uri, version: ++version }, contentChanges: [{ text }] });
};
const lines = () => {
  const starts = [0]; for (let n = 0; n < text.length; n++) if (text[n] === '\n') starts.push(n + 1);
  return { at: place => Math.min((starts[place.line] ?? text.length) + place.character, text.length) };
};
(async () => {
  const capabilities = { workspace: { didChangeWatchedFiles: { dynamicRegistration: true } },
    textDocument: { publishDiagnostics: { codeDescriptionSupport: true } } };
  await connection.sendRequest('initialize', { processId: process.pid, rootUri: null, capabilities });
  connection.sendNotification('initialized', {});
  let next = found();
  connection.sendNotification('textDocument/didOpen', { textDocument: { uri, languageId: 'keys', version, text } });
  for (const one of await next)
    console.log('finding', one.code, one.range.start.line + 1, one.range.start.character + 1);
  const whole = { range: { start: { line: 0, character: 0 }, end: { line: 9, character: 0 } } };
  const offers = await asks('completion', { position: { line: 4, character: 6 } });
  check('word', lsp.TextEdit.is, offers.items.map(one => one.textEdit));
  check('action', lsp.CodeAction.is, await asks('codeAction', { ...whole, context: { diagnostics: [] } }));
  check('symbol', one => lsp.Range.is(one.range) && lsp.Range.is(one.selectionRange), await asks('documentSymbol', {}));
  check('place', lsp.Location.is, await asks('definition', { position: { line: 4, character: 2 } }));
  check('help', lsp.Hover.is, [await asks('hover', { position: { line: 0, character: 1 } })]);
  check('fold', lsp.FoldingRange.is, await asks('foldingRange', {}));
  next = found();
  apply([{ range: { start: { line: 4, character: 6 }, end: { line: 4, character: 20 } }, newText: 'A' }]);
  await next; next = found();
  const renamed = await asks('rename', { position: { line: 1, character: 7 }, newName: 'Fire' });
  apply(check('edit', lsp.TextEdit.is, renamed.changes[uri]));
  await next;
  apply(check('edit', lsp.TextEdit.is, await asks('formatting', { options: { tabSize: 2, insertSpaces: true } })));
  console.log(text.trimEnd().replace(/\n/g, '|'));
  await connection.sendRequest('shutdown');
  connection.sendNotification('exit');
})();
server.on('exit', status => process.exit(status));
