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

  local document = vim.lsp.util.make_text_document_params(buffer)
  local encoding = vim.lsp.get_client_by_id(id).offset_encoding
  local function ask(method, params)
    params.textDocument = document
    local answer = vim.lsp.buf_request_sync(buffer, 'textDocument/' .. method, params, 10000)
    return assert(answer and answer[id] and answer[id].result, 'no answer: ' .. method)
  end
  local function text()
    return table.concat(vim.api.nvim_buf_get_lines(buffer, 0, -1, true), '\n')
  end
  local bars = tonumber(vim.env.BARS)
  out.hover = ask('hover', { position = { line = bars, character = 6 } }).contents.value

  -- A slip, and the fix that the server offers for it.
  replace(tones, '  tones 3 R 8')
  wait_for('the finding again', function()
    return #findings() > 0
  end)
  local place = { line = tones, character = 12 }
  local actions = ask('codeAction', { range = { start = place, ['end'] = place }, context = { diagnostics = {} } })
  out.actions = {}
  for _, action in ipairs(actions) do
    out.actions[#out.actions + 1] = action.title
    if action.edit and not out.fixed then
      vim.lsp.util.apply_workspace_edit(action.edit, encoding)
      out.fixed = vim.api.nvim_buf_get_lines(buffer, tones, tones + 1, true)[1]
    end
  end
  replace(tones, '  tones 3 R 5')

  local tuning = tonumber(vim.env.TUNING)
  local offered = ask('completion', { position = { line = tuning, character = #'tuning ' } })
  out.offered = {}
  for _, item in ipairs(offered.items or offered) do
    out.offered[#out.offered + 1] = item.label
  end

  local shape = tonumber(vim.env.SHAPE)
  local edit = ask('rename', { position = { line = shape, character = #'shape ' }, newName = 'beacon' })
  vim.lsp.util.apply_workspace_edit(edit, encoding)
  out.renamed = text()

  replace(tuning, 'tuning   standard')
  local edits = ask('formatting', { options = { tabSize = 2, insertSpaces = true } })
  vim.lsp.util.apply_text_edits(edits, buffer, encoding)
  out.formatted = vim.api.nvim_buf_get_lines(buffer, tuning, tuning + 1, true)[1]

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
