package panelbook.app.fleet;

import java.util.List;
import java.util.UUID;
import org.springframework.stereotype.Component;
import panelbook.app.rest.Refusal;
import panelbook.wire.Display;
import panelbook.wire.PanelHoursQuestion;
import panelbook.wire.Preset;
import panelbook.wire.Quirk;

/** What a display is and holds. */
@Component
public class DisplayContents {

    private final Displays displays;
    private final Presets presets;
    private final Quirks quirks;
    private final PanelHoursQuestions questions;

    DisplayContents(Displays displays, Presets presets, Quirks quirks, PanelHoursQuestions questions) {
        this.displays = displays;
        this.presets = presets;
        this.quirks = quirks;
        this.questions = questions;
    }

    /**
     * A display, retired or not.
     *
     * @throws Refusal when there is no such display
     */
    public Display display(UUID displayId) {
        return displays.get(displayId);
    }

    /** Its presets in use, by name. */
    public List<Preset> presets(UUID displayId) {
        return presets.inUseOf(displayId);
    }

    /**
     * A preset, retired or not.
     *
     * @throws Refusal when there is no such preset
     */
    public Preset preset(UUID presetId) {
        return presets.get(presetId);
    }

    /** Its quirks, newest first, the settled ones too. */
    public List<Quirk> quirks(UUID displayId) {
        return quirks.of(displayId, true);
    }

    /** The open questions about its panel hours, oldest first. */
    public List<PanelHoursQuestion> openQuestions(UUID displayId) {
        return questions.openOf(List.of(displayId));
    }
}
