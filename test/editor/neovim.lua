-- A second client: nvim --headless --clean -n -c 'luafile neovim.lua'. Prints one line of JSON that the test reads.
-- Written for Neovim 0.7 to 0.11: the older has no vim.lsp.start yet.
local function run()
  vim.cmd('edit ' .. vim.fn.fnameescape(vim.env.LESSON))
  local buffer = vim.api.nvim_get_current_buf()
  vim.bo[buffer].filetype = 'stringcourse'
  local exits = {}
  local id = assert(vim.lsp.start_client({
    name = 'stringcourse',
    cmd = { vim.env.NODE, vim.env.SERVER, '--stdio' },
    root_dir = vim.fn.fnamemodify(vim.env.LESSON, ':h'),
    capabilities = vim.lsp.protocol.make_client_capabilities(),
    on_exit = function(code, signal)
      exits[#exits + 1] = { code = code, signal = signal }
    end,
  }))
  assert(vim.lsp.buf_attach_client(buffer, id))

  local function wait_for(what, holds)
    if not vim.wait(10000, holds, 20) then
      error('timed out: ' .. what)
    end
  end
  wait_for('the server', function()
    local client = vim.lsp.get_client_by_id(id)
    return client and client.initialized
  end)

  local function findings()
    local found = {}
    for _, one in ipairs(vim.diagnostic.get(buffer)) do
      if one.severity == vim.diagnostic.severity.ERROR then
        found[#found + 1] = { line = one.lnum, column = one.col, code = one.code, source = one.source, message = one.message }
      end
    end
    return found
  end
  local out = {}

  -- An edit goes out as an incremental change, and the findings follow it.
  local function replace(line, text)
    vim.api.nvim_buf_set_lines(buffer, line, line + 1, true, { text })
  end
  local tones = tonumber(vim.env.TONES)
  replace(tones, '  tones 3 R 8')
  wait_for('a finding', function()
    return #findings() > 0
  end)
  out.broken = findings()
  replace(tones, '  tones 3 R 5')
  wait_for('the mending', function()
    return #findings() == 0
  end)

  local answer = vim.lsp.buf_request_sync(buffer, 'textDocument/hover', {
    textDocument = vim.lsp.util.make_text_document_params(buffer),
    position = { line = tonumber(vim.env.BARS), character = 6 },
  }, 5000)
  out.hover = assert(answer and answer[id] and answer[id].result, 'no hover').contents.value

  vim.lsp.stop_client(id)
  wait_for('the end of the server', function()
    return #exits > 0
  end)
  out.exit = exits[1]
  io.stdout:write(vim.json.encode(out) .. '\n')
end

local worked, problem = xpcall(run, debug.traceback)
if not worked then
  io.stderr:write(problem .. '\n')
end
vim.cmd(worked and 'qall!' or 'cquit 1')
