package quadrille.cli.render.page;

import quadrille.cli.render.Words;
import quadrille.plan.course.Course;

/** When visits may follow each other, in the trade's words. */
final class BookingWords {

  private BookingWords() {}

  static String gap(Course course) {
    return course.gapMinDays() == 0
        ? "all on one day"
        : Words.range(course.gapMinDays(), course.gapMaxDays()) + " days from one to the next";
  }
}
