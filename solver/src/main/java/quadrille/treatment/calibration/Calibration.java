package quadrille.treatment.calibration;

import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import quadrille.facts.practice.Figure;
import quadrille.facts.practice.Practice;

/**
 * What recorded courses say about a practice.
 *
 * @param base the practice file that the multipliers are relative to
 * @param courses how many were read
 * @param visits how many recorded visits it rests on, outliers included
 * @param times each of the practice's times, in their order
 * @param clinicians each clinician, by name
 * @param together times that records do not tell apart
 * @param spread sigma of a visit's working seconds, as plans book
 * @param outliers visits that hardly count, since something outside the work seems to have
 *     stretched or cut them
 * @param unused recorded visits that say nothing about times, and why
 * @param forecast whether bookings held
 */
public record Calibration(
    Practice base,
    int courses,
    int visits,
    List<TimeLearned> times,
    List<ClinicianLearned> clinicians,
    List<Together> together,
    Estimate spread,
    List<Outlier> outliers,
    List<Unused> unused,
    Forecast forecast) {

  /** The longest source that a practice file may have. */
  private static final int SOURCE_LENGTH = 400;

  /** The longest name of a practice. */
  private static final int NAME_LENGTH = 200;

  /** A multiplier nearer to 1 than this, with nothing recorded, leaves the number as it is. */
  private static final double NOTHING = 0.005;

  public Calibration {
    times = List.copyOf(times);
    clinicians = List.copyOf(clinicians);
    together = List.copyOf(together);
    outliers = List.copyOf(outliers);
    unused = List.copyOf(unused);
  }

  /**
   * One of the practice's times.
   *
   * @param multiplier of the practice file's seconds
   * @param visits how many visits had some of it, outliers left out
   */
  public record TimeLearned(PracticeTime time, Estimate multiplier, int visits) {}

  /**
   * One clinician.
   *
   * @param speed their time for the same work, as a multiple of the practice's
   * @param visits how many were recorded
   * @param learning how they became quicker; null where records do not show it
   */
  public record ClinicianLearned(
      String name, Estimate speed, int visits, @Nullable Learning learning) {

    /** Their time for the same work now. */
    double now() {
      return speed.value() * (learning == null ? 1 : learning.last());
    }
  }

  /** Two times that come together in nearly all records, so that little but their sum is known. */
  public record Together(PracticeTime one, PracticeTime other) {}

  /**
   * A recorded visit by name.
   *
   * @param course the chart's name of the case
   * @param visit its number
   */
  public record VisitName(String course, int visit) {}

  /**
   * A visit that hardly counts.
   *
   * @param minutes as recorded, of what was timed
   * @param expectedMinutes by the calibrated times
   */
  public record Outlier(VisitName visit, double minutes, double expectedMinutes) {}

  /**
   * A record that says nothing about times.
   *
   * @param why at least one reason
   */
  public record Unused(VisitName visit, List<Trouble> why) {
    public Unused {
      why = List.copyOf(why);
    }
  }

  /** The practice with the calibrated times, each with its source. */
  public Practice practice() {
    return practice(null);
  }

  /**
   * The practice with the times of one of its clinicians.
   *
   * @throws IllegalArgumentException where no visit of that clinician was recorded
   */
  public Practice practice(@Nullable String clinician) {
    double speed = clinician == null ? 1 : learned(clinician).now();
    double[] multipliers = new double[times.size()];
    for (int k = 0; k < multipliers.length; k++) {
      multipliers[k] =
          times.get(k).multiplier().value() * (times.get(k).time().kind().byHand() ? speed : 1);
    }
    Figure old = base.minutes().spreadSigma();
    Figure sigma =
        new Figure(
            Math.round(1000 * Math.min(2, spread.value())) / 1000.0,
            source(visits, interval(spread, 3) + " in place of " + number(old.value(), 3), old),
            Figure.Basis.CALIBRATED);
    return CalibratedPractice.of(
            base, multipliers, sigma, k -> source(times.get(k), multipliers[k], clinician))
        .withName(name(clinician));
  }

  /** Its own, so that a plan says whose figures it rests on. */
  private String name(@Nullable String clinician) {
    String more =
        ", calibrated from "
            + visits
            + (visits == 1 ? " visit" : " visits")
            + (clinician == null ? "" : ", for " + clinician);
    String name = base.name();
    int most = NAME_LENGTH - more.length();
    return (name.length() <= most ? name : name.substring(0, Math.max(1, most))) + more;
  }

  private ClinicianLearned learned(String clinician) {
    return clinicians.stream()
        .filter(one -> one.name().equals(clinician))
        .findFirst()
        .orElseThrow(
            () ->
                new IllegalArgumentException(
                    "The clinician (" + clinician + ") must have recorded visits."));
  }

  private @Nullable String source(
      TimeLearned learned, double multiplier, @Nullable String clinician) {
    PracticeTime time = learned.time();
    String whose = clinician == null ? "" : ", for clinician " + clinician;
    Figure old = time.seconds();
    if (learned.visits() == 0) {
      return Math.abs(multiplier - 1) < NOTHING
          ? null
          : source(
              visits,
              "none with this, moved with other work by " + number(multiplier, 2) + whose,
              old);
    }
    return source(
        learned.visits(),
        number(multiplier, 2)
            + " times the file's"
            + (clinician == null ? " (" + range(learned.multiplier(), 2) + ")" : whose),
        old);
  }

  private static String source(int visits, String words, Figure old) {
    String text =
        "calibrated from "
            + visits
            + (visits == 1 ? " visit: " : " visits: ")
            + words
            + "; file: "
            + old.source();
    return text.length() <= SOURCE_LENGTH ? text : text.substring(0, SOURCE_LENGTH - 1) + "\u2026";
  }

  private static String interval(Estimate estimate, int places) {
    return number(estimate.value(), places) + " (" + range(estimate, places) + ")";
  }

  private static String range(Estimate estimate, int places) {
    return number(estimate.low(), places) + " to " + number(estimate.high(), places);
  }

  private static String number(double value, int places) {
    return String.format(Locale.ROOT, "%." + places + "f", value);
  }
}
