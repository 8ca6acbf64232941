package quadrille.treatment.calibration;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.junit.jupiter.api.Test;
import quadrille.document.InvalidDocumentException;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.PracticeReader;
import quadrille.facts.practice.PracticeWriter;
import quadrille.plan.course.Cost;
import quadrille.plan.course.Course;
import quadrille.plan.course.CourseTerm;
import quadrille.plan.course.Entry;
import quadrille.plan.course.Visit;
import quadrille.treatment.calibration.SimulatedPractice.Draw;
import quadrille.treatment.record.CourseLog;
import quadrille.treatment.record.Event;
import quadrille.treatment.record.LogEntry;
import quadrille.treatment.record.VisitDone;

final class CalibratorTest {

  private static final Practice DEFAULTS = PracticeReader.defaults();
  private static final OffsetDateTime AT = OffsetDateTime.parse("2026-03-02T09:00:00+01:00");

  /** Courses of one visit each. */
  private static List<CourseLog> courses(List<CourseLog.Recorded> records, Practice practice) {
    List<CourseLog> logs = new ArrayList<>();
    for (CourseLog.Recorded record : records) {
      Course course =
          new Course(
              "case " + logs.size(),
              List.of(Objects.requireNonNull(record.planned())),
              7,
              14,
              6,
              12,
              new Cost(1, 1, Map.of(CourseTerm.CHAIR_TIME, 1L)),
              List.of(),
              List.of(),
              List.of());
      logs.add(
          new CourseLog(
              List.of(
                  new LogEntry(1, AT, new Event.Planned(course, record.chart(), practice)),
                  new LogEntry(2, AT, record.done())),
              null));
    }
    return logs;
  }

  private static VisitDone changed(VisitDone done, int booked, boolean interrupted) {
    return new VisitDone(
        done.visit(),
        done.date(),
        done.clinician(),
        done.steps(),
        done.injections(),
        done.gelCartridges(),
        done.minutes(),
        done.parts(),
        booked,
        interrupted,
        done.findings(),
        done.note());
  }

  private static List<CourseLog.Recorded> booked(List<CourseLog.Recorded> records, int minutes) {
    return records.stream()
        .map(
            one ->
                new CourseLog.Recorded(
                    one.entry(), one.planned(), one.chart(), changed(one.done(), minutes, false)))
        .toList();
  }

  @Test
  void calibratedPracticeIsReadBackWithItsSources() throws InvalidDocumentException {
    SimulatedPractice practice = new SimulatedPractice(5, Draw.OTHERWISE, 2);
    Calibration calibration =
        Calibrator.calibrate(DEFAULTS, courses(practice.records(20), DEFAULTS));
    assertEquals(20, calibration.visits());
    Practice calibrated = calibration.practice();
    Practice read = PracticeReader.read("calibrated.json", PracticeWriter.text(calibrated));
    assertEquals(calibrated, read);
    Calibration.TimeLearned deep = calibration.times().get(2);
    assertEquals(
        deep.multiplier().value() * 32.333333,
        read.minutes().fineBands().get(2).seconds().value(),
        0.005);
    assertTrue(
        read.minutes()
            .fineBands()
            .get(2)
            .seconds()
            .source()
            .startsWith("calibrated from " + deep.visits() + " visits: "));
    assertTrue(read.minutes().spreadSigma().source().startsWith("calibrated from 20 visits: "));
    assertTrue(Calibrator.calibratedAlready(read).contains(PracticeTime.of(read).get(2)));
    assertTrue(read.minutes().spreadSigma().calibrated());
    // Version 0.1.0 marked them by how the source begins.
    String old = PracticeWriter.text(calibrated).replaceAll(",\\s+\"calibrated\": true", "");
    assertFalse(old.contains("\"calibrated\""), old);
    assertEquals(calibrated, PracticeReader.read("old.json", old));
    assertEquals(List.of(), Calibrator.calibratedAlready(DEFAULTS));
  }

  @Test
  void cliniciansTimesAreThePracticesByTheirSpeed() {
    SimulatedPractice practice = new SimulatedPractice(6, Draw.OTHERWISE, 2);
    Calibration calibration =
        Calibrator.calibrate(DEFAULTS, courses(practice.records(20), DEFAULTS));
    Calibration.ClinicianLearned a = calibration.clinicians().get(0);
    assertEquals("a", a.name());
    assertEquals(10, a.visits());
    assertEquals(
        a.speed().value() * calibration.practice().minutes().fineBands().get(2).seconds().value(),
        calibration.practice("a").minutes().fineBands().get(2).seconds().value(),
        0.02);
    assertEquals(
        calibration.practice().minutes().setUpMinutes().value(),
        calibration.practice("a").minutes().setUpMinutes().value());
  }

  @Test
  void interruptedAndRepeatedVisitsAreNotUsedAndSaid() {
    List<CourseLog.Recorded> records = new SimulatedPractice(7, Draw.AS_FILE, 1).records(6);
    CourseLog.Recorded first = records.get(0);
    List<CourseLog.Recorded> changed = new ArrayList<>(records);
    changed.set(
        0,
        new CourseLog.Recorded(
            first.entry(), first.planned(), first.chart(), changed(first.done(), 60, true)));
    List<CourseLog> logs = new ArrayList<>(courses(changed, DEFAULTS));
    logs.add(logs.get(1));
    Calibration calibration = Calibrator.calibrate(DEFAULTS, logs);
    assertEquals(5, calibration.visits());
    assertEquals(
        List.of(
            new Calibration.Unused(
                new Calibration.VisitName("case 0", 1), List.of(Trouble.Known.INTERRUPTED)),
            new Calibration.Unused(
                new Calibration.VisitName("case 1", 1), List.of(Trouble.Known.COUNTED_ONCE))),
        calibration.unused());
  }

  @Test
  void visitsSureToHoldByTheirPlansAreNotWarnedOfThoughAllHeld() {
    List<CourseLog.Recorded> records = new SimulatedPractice(8, Draw.AS_FILE, 1).records(30);
    Forecast forecast =
        Calibrator.calibrate(DEFAULTS, courses(booked(records, 300), DEFAULTS)).forecast();
    assertEquals(30, forecast.inTime());
    assertFalse(forecast.fewerThanPromised());
    assertFalse(forecast.moreThanPromised());
  }

  @Test
  void visitsBookedTooShortWouldHoldMoreOftenBookedByWhatWasLearned() {
    List<CourseLog.Recorded> records = new SimulatedPractice(8, Draw.AS_FILE, 1).records(30);
    Forecast forecast =
        Calibrator.calibrate(DEFAULTS, courses(booked(records, 20), DEFAULTS)).forecast();
    assertEquals(30, forecast.visits());
    assertTrue(forecast.share() < forecast.certainty());
    assertEquals(0.8, forecast.certainty(), 1e-9);
    assertTrue(forecast.rebooked().inTime() > forecast.inTime());
  }

  /**
   * Visits of one hour of work, booked for 90 minutes, by what their plans leave for the work. The
   * working seconds are lognormal with the mean 3600 and, by the default practice, a spread of
   * 0.227 in logs, so that their median is 3600 * exp(-0.227 * 0.227 / 2) = 3508.4. Of the 5400
   * seconds the rest of the visit takes what leaves just that, or one spread less, 3508.4 *
   * exp(-0.227) = 2795.9, or one more, 3508.4 * exp(0.227) = 4402.5. Chances from any table of the
   * normal distribution.
   */
  private enum Promise {
    /** The work ends in time with the chance 0.5. */
    EVEN(5400 - 3508),
    /** With the chance 0.1587. */
    UNLIKELY(5400 - 2796),
    /** With the chance 0.8413. */
    LIKELY(5400 - 4402);

    private final int fixedSeconds;

    Promise(int fixedSeconds) {
      this.fixedSeconds = fixedSeconds;
    }
  }

  private record Ended(Promise promise, double minutes) {}

  /** By its promise, a visit that took ten minutes less than it was booked for. */
  private static Ended inTime(Promise promise) {
    return new Ended(promise, 80);
  }

  /** One that took ten minutes more. */
  private static Ended late(Promise promise) {
    return new Ended(promise, 100);
  }

  private static Forecast forecast(Ended... visits) {
    assertEquals(0.227, DEFAULTS.minutes().spreadSigma().value());
    List<CourseLog.Recorded> records =
        new SimulatedPractice(9, Draw.AS_FILE, 1).records(visits.length);
    List<CourseLog.Recorded> ended = new ArrayList<>();
    for (int i = 0; i < visits.length; i++) {
      ended.add(ended(records.get(i), visits[i]));
    }
    Forecast forecast = Calibrator.calibrate(DEFAULTS, courses(ended, DEFAULTS)).forecast();
    assertEquals(visits.length, forecast.visits());
    return forecast;
  }

  private static CourseLog.Recorded ended(CourseLog.Recorded record, Ended ended) {
    Visit visit = Objects.requireNonNull(record.planned());
    Entry.Debride step = visit.steps().get(0);
    int fixed = ended.promise().fixedSeconds;
    Visit planned =
        new Visit(
            visit.number(),
            visit.numbSide(),
            90,
            visit.overrunRisk(),
            visit.areas(),
            visit.injections(),
            visit.doses(),
            visit.epinephrineMg(),
            visit.cartridges(),
            visit.gelCartridges(),
            visit.sleeves(),
            List.of(
                new Entry.SetUp(0, fixed),
                new Entry.Debride(
                    fixed,
                    3600,
                    step.area(),
                    step.aspect(),
                    step.pass(),
                    step.insert(),
                    step.power(),
                    step.needsNumb(),
                    step.teeth())),
            visit.tray(),
            visit.watch(),
            visit.cautions());
    VisitDone done = record.done();
    return new CourseLog.Recorded(
        record.entry(),
        planned,
        record.chart(),
        new VisitDone(
            done.visit(),
            done.date(),
            done.clinician(),
            done.steps(),
            done.injections(),
            done.gelCartridges(),
            ended.minutes(),
            List.of(),
            90,
            false,
            done.findings(),
            done.note()));
  }

  private static void assertChances(
      Forecast forecast, int inTime, double promised, double fewer, double more) {
    assertEquals(inTime, forecast.inTime());
    assertEquals(promised, forecast.promised(), 5e-4);
    assertEquals(fewer, forecast.chanceOfFewer(), 1e-4);
    assertEquals(more, forecast.chanceOfMore(), 1e-4);
  }

  /**
   * Six late at even chances: 1 in 64 = 0.0156, below the 0.025 that chance is allowed. Two likely
   * ones late and an even one: 0.1587 * 0.1587 * 0.5 = 0.0126. At least none in time is sure.
   */
  @Test
  void fewerInTimeThanChanceAllowsAreWarnedOf() {
    Ended even = late(Promise.EVEN);
    Forecast six = forecast(even, even, even, even, even, even);
    assertChances(six, 0, 0.5, 0.0156, 1);
    assertTrue(six.fewerThanPromised());
    assertFalse(six.moreThanPromised());

    Forecast mixed = forecast(late(Promise.LIKELY), even, late(Promise.LIKELY));
    assertChances(mixed, 0, (0.8413 + 0.5 + 0.8413) / 3, 0.0126, 1);
    assertTrue(mixed.fewerThanPromised());
    assertFalse(mixed.moreThanPromised());
  }

  /**
   * The same the other way round: six in time at even chances, 1 in 64; two unlikely ones in time
   * and an even one, 0.1587 * 0.1587 * 0.5 = 0.0126.
   */
  @Test
  void moreInTimeThanChanceAllowsAreWarnedOf() {
    Ended even = inTime(Promise.EVEN);
    Forecast six = forecast(even, even, even, even, even, even);
    assertChances(six, 6, 0.5, 1, 0.0156);
    assertTrue(six.moreThanPromised());
    assertFalse(six.fewerThanPromised());

    Forecast mixed = forecast(inTime(Promise.UNLIKELY), even, inTime(Promise.UNLIKELY));
    assertChances(mixed, 3, (0.1587 + 0.5 + 0.1587) / 3, 1, 0.0126);
    assertTrue(mixed.moreThanPromised());
    assertFalse(mixed.fewerThanPromised());
  }

  /**
   * Five of five at even chances are 1 in 32 = 0.0313, which chance allows on either side. One
   * likely visit in time, one unlikely one late and an even one in time: of the three, two or more
   * are in time with the chance 0.8413 * 0.1587 + 0.5 * (0.8413 * 0.8413 + 0.1587 * 0.1587) = 0.5,
   * and two or fewer with 1 - 0.8413 * 0.1587 * 0.5 = 0.9332.
   */
  @Test
  void whatChanceAllowsIsNotWarnedOf() {
    Ended held = inTime(Promise.EVEN);
    Forecast all = forecast(held, held, held, held, held);
    assertEquals(0.0313, all.chanceOfMore(), 2e-4);
    assertFalse(all.moreThanPromised());
    assertFalse(all.fewerThanPromised());

    Ended missed = late(Promise.EVEN);
    Forecast none = forecast(missed, missed, missed, missed, missed);
    assertEquals(0.0313, none.chanceOfFewer(), 2e-4);
    assertFalse(none.fewerThanPromised());
    assertFalse(none.moreThanPromised());

    Forecast mixed = forecast(inTime(Promise.LIKELY), late(Promise.UNLIKELY), held);
    assertEquals(2, mixed.inTime());
    assertEquals(0.5, mixed.chanceOfMore(), 5e-4);
    assertEquals(0.9332, mixed.chanceOfFewer(), 5e-4);
    assertFalse(mixed.fewerThanPromised());
    assertFalse(mixed.moreThanPromised());
  }

  @Test
  void nothingRecordedTeachesNothing() {
    Calibration calibration = Calibrator.calibrate(DEFAULTS, List.of());
    assertEquals(0, calibration.visits());
    assertEquals(0, calibration.forecast().visits());
    assertEquals(DEFAULTS.minutes().fineBands(), calibration.practice().minutes().fineBands());
  }
}
