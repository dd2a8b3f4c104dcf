// Prints the scopes of each line of some files, by VS Code's own reader of TextMate grammars.
const fs=require('fs'),path=require('path');
const vsctm=require('vscode-textmate'),onig=require('vscode-oniguruma');
(async()=>{
 const wasm=fs.readFileSync(path.join(path.dirname(require.resolve('vscode-oniguruma')),'onig.wasm'));
 await onig.loadWASM(wasm.buffer.slice(wasm.byteOffset, wasm.byteOffset+wasm.byteLength));
 const reg=new vsctm.Registry({onigLib:Promise.resolve({createOnigScanner:p=>new onig.OnigScanner(p),createOnigString:s=>new onig.OnigString(s)}),
  loadGrammar:async()=>vsctm.parseRawGrammar(fs.readFileSync(process.argv[2],'utf8'),'x.json')});
 const g=await reg.loadGrammar('source.keys');
 const out={};
 for(const f of process.argv.slice(3)){let st=vsctm.INITIAL;const lines=[];
  for(const line of fs.readFileSync(f,'utf8').split(/\r?\n/)){const r=g.tokenizeLine(line,st);st=r.ruleStack;lines.push(r.tokens.map(t=>[t.startIndex,t.endIndex,t.scopes.slice(1)]));}
  out[f]=lines;}
 process.stdout.write(JSON.stringify(out));
})();
