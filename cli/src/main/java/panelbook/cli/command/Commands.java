package panelbook.cli.command;

/** Makes the action of each command. */
final class Commands {

    private Commands() {}

    /** The action of a command; {@code path} as in the catalogue. */
    static Action make(String path) {
        return switch (path) {
            case "log-in" -> new AccessCommands.LogInAction();
            case "log-out" -> new AccessCommands.LogOut();
            case "who" -> new AccessCommands.WhoAction();
            case "completion" -> new AccessCommands.Completion();
            case "facility add" -> new FacilityCommands.Add();
            case "facility list" -> new FacilityCommands.ListAll();
            case "facility show" -> new FacilityCommands.Show();
            case "facility edit" -> new FacilityCommands.Edit();
            case "facility retire" -> new FacilityCommands.Retire();
            case "facility enter" -> new FacilityCommands.Enter();
            case "facility export" -> new FacilityCommands.Export();
            case "room add" -> new RoomCommands.Add();
            case "room list" -> new RoomCommands.ListAll();
            case "room show" -> new RoomCommands.Show();
            case "room edit" -> new RoomCommands.Edit();
            case "room retire" -> new RoomCommands.Retire();
            case "room sheet" -> new RoomSheetAction();
            case "room readiness" -> new RoomCommands.Readiness();
            case "room hero name" -> new RoomCommands.HeroName();
            case "room hero list" -> new RoomCommands.HeroList();
            case "display add" -> new DisplayCommands.Add();
            case "display list" -> new DisplayCommands.ListAll();
            case "display show" -> new DisplayCommands.Show();
            case "display edit" -> new DisplayCommands.Edit();
            case "display move" -> new DisplayCommands.Move();
            case "display retire" -> new DisplayCommands.Retire();
            case "display merge" -> new MendingCommands.DisplayMerge();
            case "display hours add" -> new DisplayCommands.HoursAdd();
            case "display hours list" -> new DisplayCommands.HoursList();
            case "display quirk add" -> new QuirkCommands.Add();
            case "display quirk list" -> new QuirkCommands.ListAll();
            case "display quirk settle" -> new QuirkCommands.Settle();
            case "display control set" -> new ControlCommands.Set();
            case "display control list" -> new ControlCommands.ListAll();
            case "preset add" -> new PresetCommands.Add();
            case "preset list" -> new PresetCommands.ListAll();
            case "preset show" -> new PresetCommands.Show();
            case "preset edit" -> new PresetCommands.Edit();
            case "preset retire" -> new PresetCommands.Retire();
            case "target add" -> new TargetCommands.Add();
            case "target list" -> new TargetCommands.ListAll();
            case "target show" -> new TargetCommands.Show();
            case "target edit" -> new TargetCommands.Edit();
            case "target retire" -> new TargetCommands.Retire();
            case "tolerance-set add" -> new ToleranceSetCommands.Add();
            case "tolerance-set list" -> new ToleranceSetCommands.ListAll();
            case "tolerance-set show" -> new ToleranceSetCommands.Show();
            case "tolerance-set edit" -> new ToleranceSetCommands.Edit();
            case "tolerance-set retire" -> new ToleranceSetCommands.Retire();
            case "instrument add" -> new InstrumentCommands.Add();
            case "instrument list" -> new InstrumentCommands.ListAll();
            case "instrument show" -> new InstrumentCommands.Show();
            case "instrument edit" -> new InstrumentCommands.Edit();
            case "instrument retire" -> new InstrumentCommands.Retire();
            case "instrument certificate add" -> new InstrumentCommands.CertificateAdd();
            case "instrument certificate list" -> new InstrumentCommands.CertificateList();
            case "instrument correction make" -> new CorrectionCommands.Make();
            case "instrument correction list" -> new CorrectionCommands.ListAll();
            case "instrument correction withdraw" -> new CorrectionCommands.Withdraw();
            case "run upload" -> new RunUploading();
            case "run list" -> new RunCommands.ListAll();
            case "run diagnose" -> new RunDiagnosing();
            case "run show" -> new RunCommands.Show();
            case "run withdraw" -> new MendingCommands.RunWithdraw();
            case "baseline declare" -> new BaselineCommands.Declare();
            case "baseline list" -> new BaselineCommands.ListAll();
            case "match open" -> new MatchStoryCommands.Open();
            case "match session" -> new MatchStoryCommands.Session();
            case "match do" -> new MatchStoryCommands.Do();
            case "match story" -> new MatchStoryCommands.Story();
            case "match stories" -> new MatchStoryCommands.Stories();
            case "match restore" -> new MatchStoryCommands.Restore();
            case "match sign" -> new MatchStoryCommands.Sign();
            case "match give-up" -> new MatchStoryCommands.GiveUp();
            case "match sign-off" -> new MatchCommands.SignOff();
            case "match list" -> new MatchCommands.ListAll();
            case "match show" -> new MatchCommands.Show();
            case "match withdraw" -> new MendingCommands.MatchWithdraw();
            case "trim show" -> new TrimCommands.Show();
            case "trim suggest" -> new TrimCommands.Suggest();
            case "trim effects" -> new TrimCommands.Effects();
            case "advice list" -> new AdviceCommands.ListAll();
            case "advice add" -> new AdviceCommands.Add();
            case "advice edit" -> new AdviceCommands.Edit();
            case "advice retire" -> new AdviceCommands.Retire();
            case "alert list" -> new AlertCommands.ListAll();
            case "alert show" -> new AlertCommands.Show();
            case "alert ack" -> new AlertCommands.Acknowledge();
            case "alert close" -> new AlertCommands.Close();
            case "alert follow" -> new AlertFollow();
            case "finding list" -> new AlertCommands.Findings();
            case "forecast show" -> new AheadCommands.ForecastShow();
            case "due" -> new AheadCommands.Due();
            case "spool list" -> new SpoolCommands.ListAll();
            case "spool send" -> new SpoolCommands.Send();
            case "spool delete" -> new SpoolCommands.Delete();
            case "token add" -> new TokenCommands.Add();
            case "token list" -> new TokenCommands.ListAll();
            case "token revoke" -> new TokenCommands.Revoke();
            case "audit list" -> new TokenCommands.Audit();
            default -> throw new IllegalArgumentException("the catalogue names a command that is not there: " + path);
        };
    }
}
