package quadrille.calibration;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import quadrille.calibration.SimulatedPractice.Draw;
import quadrille.course.Cost;
import quadrille.course.Course;
import quadrille.practice.Practice;
import quadrille.practice.PracticeReader;
import quadrille.practice.PracticeWriter;
import quadrille.reading.InvalidDocumentException;
import quadrille.record.CourseLog;
import quadrille.record.Event;
import quadrille.record.LogEntry;
import quadrille.record.VisitDone;

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
              List.of(java.util.Objects.requireNonNull(record.planned())),
              7,
              14,
              6,
              12,
              new Cost(1, 1, Map.of("chair time", 1L)),
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
    assertFalse(Calibrator.calibratedAlready(read).isEmpty());
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
            new Calibration.Unused(new Calibration.VisitName("case 0", 1), "interrupted"),
            new Calibration.Unused(
                new Calibration.VisitName("case 1", 1),
                "recorded in two of the files, counted once")),
        calibration.unused());
  }

  @Test
  void bookingsTooShortOrTooLongAreWarnedOf() {
    List<CourseLog.Recorded> records = new SimulatedPractice(8, Draw.AS_FILE, 1).records(30);
    Forecast tooShort =
        Calibrator.calibrate(DEFAULTS, courses(booked(records, 20), DEFAULTS)).forecast();
    assertEquals(30, tooShort.visits());
    Forecast tooLong =
        Calibrator.calibrate(DEFAULTS, courses(booked(records, 300), DEFAULTS)).forecast();
    assertEquals(30, tooLong.inTime());
    assertFalse(tooLong.fewerThanPromised());
    assertFalse(tooLong.moreThanPromised());
    assertTrue(tooShort.share() < tooShort.certainty());
    assertEquals(0.8, tooShort.certainty(), 1e-9);
    assertTrue(tooShort.rebooked().inTime() > tooShort.inTime());
  }

  @Test
  void nothingRecordedTeachesNothing() {
    Calibration calibration = Calibrator.calibrate(DEFAULTS, List.of());
    assertEquals(0, calibration.visits());
    assertEquals(0, calibration.forecast().visits());
    assertEquals(DEFAULTS.minutes().fineBands(), calibration.practice().minutes().fineBands());
  }
}
