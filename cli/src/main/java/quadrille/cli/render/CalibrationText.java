package quadrille.cli.render;

import java.util.List;
import java.util.Locale;
import java.util.Objects;
import quadrille.treatment.calibration.Calibration;
import quadrille.treatment.calibration.Estimate;
import quadrille.treatment.calibration.Forecast;
import quadrille.treatment.calibration.Learning;
import quadrille.treatment.calibration.PracticeTime;

/** What was learned of a practice's times, in plain words. */
public final class CalibrationText {

  private static final int NAME = 33;

  private final Calibration calibration;
  private final Page page;

  private CalibrationText(Calibration calibration, boolean styled) {
    this.calibration = calibration;
    this.page = new Page(styled);
  }

  /**
   * Renders a calibration.
   *
   * @param styled whether headings are set off by terminal codes
   */
  public static String of(Calibration calibration, boolean styled) {
    return new CalibrationText(calibration, styled).text();
  }

  private String text() {
    page.paragraph(
        "Learned from "
            + Words.count(calibration.visits(), "recorded visit")
            + " in "
            + Words.count(calibration.courses(), "course")
            + ". A range holds the true number nine times in ten. Where few visits tell, a time"
            + " stays near the practice file's.");
    if (calibration.visits() > 0) {
      inWords();
      times();
      clinicians();
      learning();
      together();
    }
    forecast();
    left();
    return page.text();
  }

  /** The times that are surely not the file's. */
  private void inWords() {
    List<Calibration.TimeLearned> sure =
        calibration.times().stream()
            .filter(one -> one.visits() > 0 && !one.multiplier().holds(1))
            .toList();
    page.heading("In words");
    if (sure.isEmpty()) {
      page.paragraph("No time is surely other than the practice file's.");
    }
    for (Calibration.TimeLearned one : sure) {
      page.paragraph(
          "Your "
              + CalibrationWords.time(one.time())
              + verb(one)
              + times(one.multiplier())
              + " times the file\u2019s time ("
              + range(one.multiplier())
              + ", from "
              + Words.count(one.visits(), "visit")
              + ").");
    }
  }

  private static String verb(Calibration.TimeLearned one) {
    return one.time().kind() == PracticeTime.Kind.SET_UP_AND_CLOSE ? " take " : " takes ";
  }

  private void times() {
    page.heading("Each time");
    page.line(
        Page.pad("", NAME)
            + Page.padLeft("file", 8)
            + Page.padLeft("yours", 9)
            + Page.padLeft("times", 7)
            + Page.padLeft("range", 13)
            + Page.padLeft("visits", 8));
    for (Calibration.TimeLearned one : calibration.times()) {
      double seconds = one.time().seconds().value();
      page.line(
          Page.pad(CalibrationWords.time(one.time()), NAME)
              + Page.padLeft(seconds(seconds), 8)
              + Page.padLeft(seconds(seconds * one.multiplier().value()), 9)
              + Page.padLeft(times(one.multiplier()), 7)
              + Page.padLeft(range(one.multiplier()), 13)
              + Page.padLeft(Integer.toString(one.visits()), 8));
    }
    page.line(
        Page.pad("spread of a visit (sigma)", NAME)
            + Page.padLeft(fixed(calibration.base().minutes().spreadSigma().value(), 3), 8)
            + Page.padLeft(fixed(calibration.spread().value(), 3), 9)
            + Page.padLeft("", 4)
            + Page.padLeft(range(calibration.spread(), 3), 16)
            + Page.padLeft(Integer.toString(calibration.visits()), 8));
  }

  private void clinicians() {
    if (calibration.clinicians().size() < 2) {
      return;
    }
    page.heading("Each clinician, against the practice");
    for (Calibration.ClinicianLearned one : calibration.clinicians()) {
      page.paragraph(
          one.name()
              + ": "
              + fixed(one.speed().value(), 2)
              + " times the practice\u2019s time by hand ("
              + range(one.speed(), 2)
              + ", from "
              + Words.count(one.visits(), "visit")
              + ").");
    }
  }

  private void learning() {
    List<Calibration.ClinicianLearned> some =
        calibration.clinicians().stream().filter(one -> one.learning() != null).toList();
    if (!some.isEmpty()) {
      page.heading("Who became quicker");
    }
    for (Calibration.ClinicianLearned one : some) {
      Learning learning = Objects.requireNonNull(one.learning());
      page.paragraph(
          one.name()
              + ": the first of "
              + Words.count(learning.visits(), "visit")
              + " took "
              + fixed(learning.first() / learning.last(), 2)
              + " times as long as the last for the same work. A file for this clinician"
              + " (--clinician) has the time of now.");
    }
  }

  /** What nobody could know from these records. */
  private void together() {
    if (calibration.together().isEmpty()) {
      return;
    }
    page.heading("Not told apart");
    page.paragraph(
        "In these records they nearly always come together, so that their sum is known, and each"
            + " alone is not:");
    for (Calibration.Together one : calibration.together()) {
      page.item(CalibrationWords.time(one.one()) + " and " + CalibrationWords.time(one.other()));
    }
  }

  private void forecast() {
    Forecast forecast = calibration.forecast();
    page.heading("Did bookings hold?");
    if (forecast.visits() == 0) {
      page.paragraph("No visit was timed from set-up to close.");
      return;
    }
    page.paragraph(
        forecast.inTime()
            + " of "
            + Words.count(forecast.visits(), "visit")
            + " ended in the booked time with the planned work done: "
            + Words.percent(forecast.share())
            + " ("
            + Words.percent(forecast.low())
            + " to "
            + Words.percent(forecast.high())
            + "). Promised were at least "
            + Words.percent(forecast.certainty())
            + "; by the plans\u2019 own reckoning, "
            + Words.percent(forecast.promised())
            + " on average; by the calibrated times, "
            + Words.percent(forecast.calibrated())
            + ".");
    if (forecast.fewerThanPromised()) {
      page.paragraph(
          "WARNING: fewer visits ended in time than chance allows. The plans promise too much;"
              + " plan by the calibrated times.");
    } else if (forecast.moreThanPromised()) {
      page.paragraph(
          "WARNING: more visits ended in time than chance allows. Visits are booked longer than"
              + " need be; plan by the calibrated times.");
    } else {
      page.paragraph("That differs from what the plans promised by no more than chance allows.");
    }
    Forecast.Rebooked rebooked = forecast.rebooked();
    if (rebooked.visits() > 0) {
      page.paragraph(
          "Booked by calibrated times, each by what the other visits tell, "
              + rebooked.inTime()
              + " of "
              + rebooked.visits()
              + " would have ended in time ("
              + Words.percent((double) rebooked.inTime() / rebooked.visits())
              + "), booked for "
              + Words.number(rebooked.minutesNow(), 1)
              + "\u00a0min on average instead of "
              + Words.number(rebooked.minutesBefore(), 1)
              + "\u00a0min.");
    }
  }

  private void left() {
    if (!calibration.outliers().isEmpty()) {
      page.heading("Visits that hardly count");
      for (Calibration.Outlier one : calibration.outliers()) {
        page.paragraph(
            name(one.visit())
                + ": "
                + Words.number(one.minutes(), 0)
                + "\u00a0min recorded where "
                + Words.number(one.expectedMinutes(), 0)
                + " are expected. If something outside the work stretched or cut it, record it as"
                + " interrupted.");
      }
    }
    if (!calibration.unused().isEmpty()) {
      page.heading("Not used");
      for (Calibration.Unused one : calibration.unused()) {
        page.paragraph(name(one.visit()) + ": " + CalibrationWords.why(one.why()) + ".");
      }
    }
  }

  private static String name(Calibration.VisitName visit) {
    return visit.course() + ", visit " + visit.visit();
  }

  private static String seconds(double seconds) {
    return seconds >= 300
        ? Words.number(seconds / 60, 1) + " min"
        : Words.number(seconds, 1) + " s";
  }

  private static String times(Estimate estimate) {
    return fixed(estimate.value(), 1);
  }

  private static String range(Estimate estimate) {
    return range(estimate, 1);
  }

  private static String range(Estimate estimate, int decimals) {
    return fixed(estimate.low(), decimals) + " to " + fixed(estimate.high(), decimals);
  }

  /** So many decimals: in a column and in a range, 2.0 says more than 2. */
  private static String fixed(double value, int decimals) {
    return String.format(Locale.ROOT, "%." + decimals + "f", value);
  }
}
