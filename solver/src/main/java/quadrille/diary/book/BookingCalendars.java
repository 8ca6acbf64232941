package quadrille.diary.book;

import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.function.Function;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import quadrille.diary.calendar.CalendarEntry;
import quadrille.diary.calendar.CalendarWriter;
import quadrille.document.BidiText;
import quadrille.facts.practice.Contact;
import quadrille.plan.course.StopQuestion;

/**
 * Bookings as iCalendar files: one for the practice, one for the patient. They are made for other
 * programs, which show the text in them as it is; that text is English, and nothing reads it back.
 * Events are named by the diary's {@link ExportNames}, so it must have a key.
 */
public final class BookingCalendars {

  private BookingCalendars() {}

  /**
   * What the practice's own calendar shows: case, visit, who, where, and what has to be ready; in
   * the description first of all what is asked before anything is touched.
   *
   * @param bookings of the diary
   * @param asked a stop question in words
   * @param stamp when they were booked or changed
   */
  public static String forPractice(
      Diary diary, List<Booking> bookings, Function<StopQuestion, String> asked, Instant stamp) {
    return CalendarWriter.write(practiceEntries(diary, bookings, asked), stamp);
  }

  /**
   * The same, each event in a file of its own, as calendar servers keep them.
   *
   * @return by file name, which does not tell the case
   */
  public static Map<String, String> eventsForPractice(
      Diary diary, List<Booking> bookings, Function<StopQuestion, String> asked, Instant stamp) {
    Map<String, String> files = new LinkedHashMap<>();
    for (CalendarEntry entry : practiceEntries(diary, bookings, asked)) {
      files.put(
          entry.uid().substring(0, entry.uid().indexOf('@')) + ".ics",
          CalendarWriter.resource(entry, stamp));
    }
    return files;
  }

  private static List<CalendarEntry> practiceEntries(
      Diary diary, List<Booking> bookings, Function<StopQuestion, String> asked) {
    ExportNames names = ExportNames.of(diary);
    Map<String, Integer> undone = Journal.undone(diary);
    List<CalendarEntry> entries = new ArrayList<>();
    for (Booking booking : bookings) {
      String who =
          diary
              .clinician(booking.clinician())
              .map(Clinician::name)
              .map(BidiText::isolated)
              .orElse("?");
      String where =
          diary.chair(booking.chair()).map(Chair::name).map(BidiText::isolated).orElse("?");
      List<String> lines = new ArrayList<>();
      diary
          .course(booking.caseName())
          .flatMap(course -> course.visit(booking.visit()))
          .ifPresent(
              visit ->
                  visit
                      .stopQuestions()
                      .forEach(
                          question ->
                              lines.add("STOP: " + BidiText.isolated(asked.apply(question)))));
      if (booking.status() == BookingStatus.HELD) {
        lines.add("Held, not promised.");
      }
      lines.add(booking.minutes() + " minutes with " + who + ".");
      if (booking.injections() && booking.injectors().isEmpty()) {
        lines.add("Injections: only someone who may inject.");
      }
      for (InjectorCall call : booking.injectors()) {
        lines.add(
            String.format(
                Locale.ROOT,
                "Injections: %s comes in from %s to %s.",
                diary
                    .clinician(call.clinician())
                    .map(Clinician::name)
                    .map(BidiText::isolated)
                    .orElse("?"),
                call.time(booking.start()).start().atZone(diary.zone()).toLocalTime(),
                call.time(booking.start()).end().atZone(diary.zone()).toLocalTime()));
      }
      if (!booking.sets().isEmpty()) {
        lines.add(
            "Sterile sets: "
                + String.join(", ", booking.sets().stream().map(BidiText::isolated).toList())
                + ".");
      }
      entries.add(
          entry(
              booking,
              undone,
              names.digits("practice", booking.id()),
              String.format(
                  Locale.ROOT,
                  "%s visit %s, %s, %s",
                  BidiText.isolated(booking.caseName()),
                  ofAll(diary, booking),
                  who,
                  where),
              String.join("\n", lines),
              where));
    }
    return entries;
  }

  /**
   * What the patient takes home. The title says nothing but that it is an appointment: it is read
   * by whoever sees the telephone.
   *
   * @param bookings of one patient
   * @param practiceName as patients know it; null leaves it out
   * @param contact what it lacks is left out
   * @param stamp when they were booked or changed
   */
  public static String forPatient(
      Diary diary,
      List<Booking> bookings,
      @Nullable String practiceName,
      Contact contact,
      Instant stamp) {
    ExportNames names = ExportNames.of(diary);
    Map<String, Integer> undone = Journal.undone(diary);
    List<CalendarEntry> entries = new ArrayList<>();
    for (Booking booking : bookings) {
      String who =
          diary
              .clinician(booking.clinician())
              .map(Clinician::name)
              .map(BidiText::isolated)
              .orElse("?");
      List<String> lines =
          Stream.<@Nullable String>of(
                  isolated(practiceName),
                  booking.status() == BookingStatus.HELD ? "Not yet confirmed." : null,
                  "With " + who + ", " + booking.minutes() + " minutes.",
                  isolated(contact.phone()),
                  isolated(contact.email()))
              .filter(Objects::nonNull)
              .toList();
      @Nullable String address = contact.address();
      entries.add(
          entry(
              booking,
              undone,
              names.digits("patient", booking.id()),
              "Appointment",
              String.join("\n", lines),
              isolated(address == null ? practiceName : address)));
    }
    return CalendarWriter.write(entries, stamp);
  }

  private static @Nullable String isolated(@Nullable String text) {
    return text == null ? null : BidiText.isolated(text);
  }

  private static CalendarEntry entry(
      Booking booking,
      Map<String, Integer> undone,
      String name,
      String title,
      String description,
      @Nullable String location) {
    CalendarEntry.Status status =
        switch (booking.status()) {
          case HELD -> CalendarEntry.Status.TENTATIVE;
          case PROMISED, DONE -> CalendarEntry.Status.CONFIRMED;
          case CANCELLED, MISSED -> CalendarEntry.Status.CANCELLED;
        };
    return new CalendarEntry(
        name + "@quadrille",
        booking.time(),
        title,
        description,
        location,
        status,
        // Diaries of before changes were counted have none in what was called off. What was taken
        // back has fewer again, and must still be later than what a calendar was told meanwhile.
        2 * undone.getOrDefault(booking.id(), 0)
            + (status == CalendarEntry.Status.CANCELLED
                ? Math.max(1, booking.changes())
                : booking.changes()));
  }

  private static String ofAll(Diary diary, Booking booking) {
    return diary
        .course(booking.caseName())
        .map(course -> booking.visit() + " of " + course.lastNumber())
        .orElse(String.valueOf(booking.visit()));
  }
}
