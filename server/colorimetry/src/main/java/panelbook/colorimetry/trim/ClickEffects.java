package panelbook.colorimetry.trim;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * What one click of each control does on one display. Immutable.
 *
 * <p>Conditions: the figure moves in proportion to the clicks, which holds for a few percent of light; readings of one
 * chain are by one instrument. Source of the shrinkage towards the model's mean: {@link Shrinkage}.
 */
public final class ClickEffects {
    /** Probability that an interval holds the truth. */
    public static final double COVERAGE = 0.95;

    private final Map<Click, Effect> effects;

    private ClickEffects(Map<Click, Effect> effects) {
        this.effects = Map.copyOf(effects);
    }

    /**
     * The effects on a display.
     *
     * @param own its trials in the order made; may be empty
     * @param others trials of other displays of its model, each display's in the order made; may be empty
     * @return an effect for every control, level and figure of which any trial tells; with none of its own, that of a
     *     display of the model not seen yet
     */
    public static ClickEffects of(List<Trial> own, List<List<Trial>> others) {
        Map<Click, Slope> mine = Slope.all(own);
        Map<Click, List<Slope>> theirs = new HashMap<>();
        for (List<Trial> display : others) {
            Slope.all(display)
                    .forEach((click, slope) -> theirs.computeIfAbsent(click, c -> new ArrayList<>())
                            .add(slope));
        }
        Set<Click> clicks = new HashSet<>(mine.keySet());
        clicks.addAll(theirs.keySet());
        Map<Click, Effect> effects = new HashMap<>();
        for (Click click : clicks) {
            effects.put(
                    click,
                    effect(
                            Optional.ofNullable(mine.get(click)),
                            theirs.getOrDefault(click, List.of()),
                            click.figure().spread()));
        }
        return new ClickEffects(effects);
    }

    static Effect effect(Optional<Slope> own, List<Slope> others, double priorScale) {
        Shrinkage s = Shrinkage.of(own, others, priorScale);
        double tail = (1 - COVERAGE) / 2;
        return new Effect(
                s.estimate(),
                s.quantile(tail),
                s.quantile(1 - tail),
                own.map(Slope::trials).orElse(0),
                others.size());
    }

    /**
     * One effect.
     *
     * @param control that is turned
     * @param level where it is looked at
     * @param figure what is looked at
     * @return empty when no trial tells of it
     */
    public Optional<Effect> of(Control control, GreyLevel level, Figure figure) {
        return Optional.ofNullable(effects.get(new Click(control, level, figure)));
    }

    /**
     * All effects.
     *
     * @return by what is asked
     */
    public Map<Click, Effect> all() {
        return effects;
    }
}
