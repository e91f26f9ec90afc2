package panelbook.wire;

/**
 * Hours that somebody works on a day of the week.
 *
 * @param from HH:mm, local
 * @param until HH:mm, local, later than {@code from}; 24:00 for the end of the day
 */
public record WorkingHours(Weekday day, String from, String until) {}
