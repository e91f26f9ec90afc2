package panelbook.demo;

import java.util.List;
import panelbook.colorimetry.simulation.Ageing;
import panelbook.colorimetry.simulation.Primaries;
import panelbook.colorimetry.simulation.SimulatedDisplay;
import panelbook.wire.DisplayEntry;
import panelbook.wire.PresetEntry;
import panelbook.wire.Trim;

/**
 * A display of the facility, and what became of it between the calibrator's visit and the check.
 *
 * @param room where it stands
 * @param name unique in the facility
 * @param model what the book says it is
 * @param target what its one preset is calibrated to
 * @param hero whether it is its room's hero for that target
 * @param matched whether it is a follower that was matched at the visit
 * @param trims that the match left it with; empty when it needed none
 * @param calibrated as the calibrator left it
 * @param trimmed with the trims of the match
 * @param later when it was checked
 * @param hours of its panel at the visit, h
 */
record DemoDisplay(
        String room,
        String name,
        String model,
        DemoTarget target,
        boolean hero,
        boolean matched,
        List<Trim> trims,
        SimulatedDisplay calibrated,
        SimulatedDisplay trimmed,
        SimulatedDisplay later,
        double hours) {

    /** The name of every display's one preset. */
    static final String PRESET = "Grade";

    /** Path of its preset, by which files and commands name it. */
    String path() {
        return DemoFacility.NAME + "/" + room + "/" + name + "/" + PRESET;
    }

    DisplayEntry entry() {
        return new DisplayEntry(
                name,
                model,
                calibrated.technology(),
                null,
                null,
                List.of(new PresetEntry(PRESET, target.label(), hero)));
    }

    /** A room's hero that only ages. */
    static DemoDisplay hero(String room, String name, DemoTarget target, Primaries primaries, double hours) {
        var panel = panel(primaries, target, hours).build();
        return new DemoDisplay(
                room, name, model(primaries), target, true, false, List.of(), panel, panel, panel, hours);
    }

    /** A follower that looked like its hero without any trim. */
    static DemoDisplay follower(String room, String name, DemoTarget target, Primaries primaries, double hours) {
        var panel = panel(primaries, target, hours).build();
        return new DemoDisplay(
                room, name, model(primaries), target, false, true, List.of(), panel, panel, panel, hours);
    }

    /** A follower whose white the operator moved until it looked like the hero's; x and y as measured. */
    DemoDisplay trimmedTo(double dx, double dy, Trim... clicks) {
        var panel = calibrated.toBuilder().whiteError(dx, dy).build();
        return new DemoDisplay(
                room, name, model, target, hero, matched, List.of(clicks), calibrated, panel, panel, hours);
    }

    /** A follower that the operator matched by turning its gains. */
    DemoDisplay turnedTo(Trim... clicks) {
        var panel = DemoClicks.turned(calibrated, target, List.of(clicks));
        return new DemoDisplay(
                room, name, model, target, hero, matched, List.of(clicks), calibrated, panel, panel, hours);
    }

    /** The same, but nobody has matched it. */
    DemoDisplay unmatched() {
        return new DemoDisplay(room, name, model, target, hero, false, trims, calibrated, trimmed, later, hours);
    }

    /** The same, with blue and green of its backlight wearing out: light goes as a Weibull curve past its knee. */
    DemoDisplay wearingOut() {
        var panel = trimmed.toBuilder()
                .ageing(new Ageing(2.2 * hours, 4), new Ageing(2.0 * hours, 4), new Ageing(1.27 * hours, 4))
                .build();
        return new DemoDisplay(room, name, model, target, hero, matched, trims, calibrated, trimmed, panel, hours);
    }

    /** The same, after someone turned its gains in the menu. */
    DemoDisplay turnedLater(double byRed, double byGreen, double byBlue) {
        return new DemoDisplay(
                room,
                name,
                model,
                target,
                hero,
                matched,
                trims,
                calibrated,
                trimmed,
                trimmed.toBuilder().gains(byRed, byGreen, byBlue).build(),
                hours);
    }

    private static String model(Primaries primaries) {
        return "31-inch " + primaries.technology();
    }

    /** A healthy panel: some per cent of light gone since it was new, blue ahead of the others. */
    private static SimulatedDisplay.Builder panel(Primaries primaries, DemoTarget target, double hours) {
        var slow = new Ageing(40 * hours, 0.6);
        var blue = new Ageing(30 * hours, 0.6);
        return SimulatedDisplay.builder(primaries)
                .peak(target.peak())
                .leak(target.colorimetric().aims().black())
                .rollOffFrom(0.97)
                .ageing(slow, slow, blue)
                .calibratedAt(hours);
    }
}
