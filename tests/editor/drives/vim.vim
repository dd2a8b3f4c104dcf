" Drives Vim: a finding, its correction, another name, the form; writes what came of each.
function! Wait(what, test)
  for n in range(1200)
    if eval(a:test) | return | endif
    sleep 50m
  endfor
  call writefile(['no ' . a:what], 'out.txt', 'a') | cquit
endfunction
edit pad.keys
call Wait('findings', "!empty(filter(ale#engine#GetLoclist(bufnr('')), {_, one -> one.type ==# 'E'}))")
for one in ale#engine#GetLoclist(bufnr('')) | call writefile(['finding ' . get(one, 'code', '') . ' ' . one.lnum . ' ' . one.col], 'out.txt', 'a') | endfor
call setline(5, '  Q = A')
ALELint
call Wait('cure', "empty(filter(ale#engine#GetLoclist(bufnr('')), {_, one -> one.type ==# 'E'}))")
call cursor(2, 8)
call writefile([synIDattr(synID(1,1,1),'name') . ' ' . synIDattr(synID(2,4,1),'name')], 'out.txt', 'a')
call feedkeys(":ALERename\<CR>\<C-U>Fire\<CR>", 'tx')
call Wait('name', "getline(2) =~# 'Fire'")
normal gggqG
call Wait('form', "getline(2) ==# '  line Fire W'")
call writefile([join(getline(1,'$'), '|')], 'out.txt', 'a')
qall!
