package quadrille.cli.render.page;

import java.time.format.DateTimeFormatter;
import java.util.Locale;
import quadrille.cli.render.Words;
import quadrille.plan.course.Course;
import quadrille.treatment.record.Event;

/** When visits may follow each other, and when they are, in the trade's words. */
final class BookingWords {

  private static final DateTimeFormatter TIME =
      DateTimeFormatter.ofPattern("yyyy-MM-dd HH:mm", Locale.ROOT);

  private BookingWords() {}

  static String gap(Course course) {
    return course.gapMinDays() == 0
        ? "all on one day"
        : Words.range(course.gapMinDays(), course.gapMaxDays()) + " days from one to the next";
  }

  /** An appointment: when, how long, who. */
  static String appointment(Event.Appointment booked) {
    return TIME.format(booked.start())
        + ", "
        + booked.minutes()
        + "\u00a0min"
        + (booked.clinician() == null ? "" : ", " + booked.clinician());
  }
}
