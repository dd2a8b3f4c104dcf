(* What Eva never reached: functions that are never called, and statements of the others.
   Loaded by frama-c after the analysis (`-load-script`). *)
open Cil_types

let is_simple statement =
  match statement.skind with
  | Block _ | Loop _ | UnspecifiedSequence _ -> false
  | _ -> true

let tell what location =
  Kernel.result "%s %a" what Filepath.pp_pos (fst location)

let visitor = object
  inherit Visitor.frama_c_inplace

  method! vfunc definition =
    let kf = Globals.Functions.get definition.svar in
    if !Db.Value.is_called kf then Cil.DoChildren
    else (tell ("uncalled " ^ definition.svar.vname) definition.svar.vdecl; Cil.SkipChildren)

  method! vstmt_aux statement =
    if is_simple statement && not (Db.Value.is_reachable_stmt statement) then
      tell "dead" (Cil_datatype.Stmt.loc statement);
    Cil.DoChildren
end

let () = Db.Main.extend (fun () ->
  Visitor.visitFramacFileSameGlobals (visitor :> Visitor.frama_c_visitor) (Ast.get ()))
