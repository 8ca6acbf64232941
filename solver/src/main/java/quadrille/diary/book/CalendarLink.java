package quadrille.diary.book;

import org.jspecify.annotations.Nullable;

/**
 * An iCalendar file whose events take time.
 *
 * @param file path, from the folder of the diary file
 * @param clinician whose time; null if no one clinician is meant
 * @param chair whose time; null if no one chair is meant. Where both are null, everybody's
 */
public record CalendarLink(String file, @Nullable String clinician, @Nullable String chair) {}
