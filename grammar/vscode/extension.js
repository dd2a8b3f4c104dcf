// Starts `matrixgen language-server` for .keys files.
const { workspace } = require("vscode");
const { LanguageClient } = require("vscode-languageclient/node");

let client;

exports.activate = () => {
  const settings = workspace.getConfiguration("matrixgen");
  const server = { command: settings.get("command"), args: ["language-server"] };
  client = new LanguageClient("matrixgen", server, {
    documentSelector: [{ language: "keys" }],
    initializationOptions: { inlayHints: settings.get("inlayHints") },
  });
  return client.start();
};

exports.deactivate = () => client && client.stop();
