package panelbook.wire;

/**
 * A calendar of visits that was just opened.
 *
 * @param path of its address on the service, with the secret that opens it to whoever knows it; shown this once
 */
public record NewCalendarFeed(CalendarFeed feed, String path) {

    /** Without the secret. */
    @Override
    public String toString() {
        return "NewCalendarFeed[feed=" + feed + "]";
    }
}
