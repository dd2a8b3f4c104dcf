-- Drives Neovim: a finding, its correction, another name, the form; prints what came of each.
local function wait(what, test) if not vim.wait(60000, test, 50) then print('no '..what) vim.cmd('cq') end end
vim.cmd('edit pad.keys')
wait('findings', function() for _,d in ipairs(vim.diagnostic.get(0)) do if d.severity==1 then return true end end return false end)
for _,d in ipairs(vim.diagnostic.get(0)) do if d.severity==1 then print('finding ' .. d.code .. ' ' .. (d.lnum + 1) .. ' ' .. (d.col + 1) .. '\n') end end
vim.api.nvim_buf_set_lines(0,4,5,false,{'  Q = A'})
wait('cure', function() for _,d in ipairs(vim.diagnostic.get(0)) do if d.severity==1 then return false end end return true end)
vim.api.nvim_win_set_cursor(0,{2,7})
vim.lsp.buf.rename('Fire')
wait('name', function() return vim.api.nvim_buf_get_lines(0,1,2,false)[1]:find('Fire') end)
if vim.lsp.buf.format then vim.lsp.buf.format({async=false,timeout_ms=60000}) else vim.lsp.buf.formatting_sync({}, 60000) end
print('\n' .. table.concat(vim.api.nvim_buf_get_lines(0,0,-1,false),'|'))
