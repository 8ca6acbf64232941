package quadrille.cli.render.page;

import java.time.LocalDateTime;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import quadrille.facts.chart.Numbering;
import quadrille.plan.staging.Effort;
import quadrille.treatment.record.Corrected;
import quadrille.treatment.record.CourseLog;
import quadrille.treatment.record.CourseState;
import quadrille.treatment.record.Event;
import quadrille.treatment.record.LogEntry;
import quadrille.treatment.record.VisitDone;
import quadrille.treatment.record.VisitRecordReader;
import quadrille.treatment.restaging.Restaged;
import quadrille.treatment.restaging.Restager;

/** Courses under way, from the kept plans; what their visits did is invented. */
final class ProgressSample {

  static final String NOTE = "came late, stopped for the child";

  private static final OffsetDateTime AT = OffsetDateTime.parse("2026-03-02T12:00:00+01:00");

  private final List<LogEntry> entries = new ArrayList<>();

  private ProgressSample() {}

  private static final Map<String, CourseLog> MADE = new ConcurrentHashMap<>();

  /** By name: fresh, half, restaged, finished, gel, universal; each made once. */
  static CourseLog of(String name) throws Exception {
    CourseLog made = MADE.get(name);
    if (made == null) {
      made = made(name);
      MADE.put(name, made);
    }
    return made;
  }

  private static CourseLog made(String name) throws Exception {
    ProgressSample sample = new ProgressSample();
    switch (name) {
      case "fresh" -> sample.begin("typical");
      case "half" -> sample.half();
      case "restaged" -> {
        sample.half();
        Restager.Outcome outcome =
            new Restager(Effort.QUICK).restage(sample.log(), sample.log().practice(), null);
        Restaged again = ((Restager.Outcome.Again) outcome).restaged();
        sample.add(new Event.Replanned(again.course(), again.chart(), again.changes()));
      }
      case "finished" -> sample.finished("typical");
      case "gel" -> sample.finished("pocket-gel");
      case "universal" -> sample.universal();
      default -> throw new IllegalArgumentException(name);
    }
    return sample.log();
  }

  static String html(String name) throws Exception {
    return html(of(name), "en");
  }

  static String html(CourseLog log, String language) {
    return ProgressPages.of(log, EnumSet.allOf(ProgressKind.class), Language.of(language));
  }

  private CourseLog log() {
    return new CourseLog(entries, null);
  }

  private void add(Event event) {
    int number = entries.size() + 1;
    Numbering numbering =
        event instanceof Event.Planned planned ? planned.chart().numbering() : log().numbering();
    entries.add(new LogEntry(number, AT.plusDays(number), event, numbering));
  }

  private void begin(String plan) throws Exception {
    Sample sample = Sample.of(plan);
    add(new Event.Planned(sample.course(), sample.chart(), sample.practice()));
  }

  private VisitDone visit(int number, String date, int corrects, String more) throws Exception {
    return VisitRecordReader.read(
        "visit.json",
        """
        {"schema": "quadrille/visit/1", "visit": %d, "date": "%s", %s}
        """
            .formatted(number, date, more),
        log(),
        corrects);
  }

  /** A block that failed, a pass half done, an area not done at all, and a slip put right. */
  private void half() throws Exception {
    begin("typical");
    add(
        new Event.Booked(
            List.of(
                new Event.Appointment(1, LocalDateTime.parse("2026-03-09T09:30"), 70, "C2"),
                new Event.Appointment(2, LocalDateTime.parse("2026-03-19T09:30"), 80, "C2"),
                new Event.Appointment(3, LocalDateTime.parse("2026-03-30T14:00"), 60, null))));
    String work =
        """
        "steps": [
          {"area": "UR posterior", "pass": "fine", "aspect": "facial", "share": 0.5},
          {"area": "UR posterior", "pass": "finishing", "share": 0},
          {"area": "UR anterior", "pass": "gross", "share": 0},
          {"area": "UR anterior", "pass": "fine", "share": 0}],
        "injections": [
          {"injection": "posterior superior alveolar", "quadrant": "UR",
           "agent": "lidocaine-2-100", "ml": 0.9},
          {"injection": "infraorbital", "quadrant": "UR", "agent": "lidocaine-2-100", "ml": 1.05},
          {"injection": "infraorbital", "quadrant": "UR", "agent": "articaine-4-200", "ml": 0.8},
          {"injection": "greater palatine", "quadrant": "UR", "agent": "lidocaine-2-100", "ml": 0.5}],
        "parts": [{"area": "UR posterior", "pass": "fine", "minutes": 17.5}],
        "found": [
          {"what": "failed-injection", "injection": "infraorbital", "quadrant": "UR"},
          {"what": "depth", "tooth": "16", "aspect": "facial", "site": "distal", "depthMm": 8,
           "bleeding": true}],
        "note": "%s"
        """
            .formatted(NOTE);
    add(visit(1, "2026-03-10", 0, "\"clinician\": \"C3\", \"minutes\": 46, " + work));
    VisitDone right = visit(1, "2026-03-10", 3, "\"clinician\": \"C3\", \"minutes\": 76, " + work);
    add(new Corrected(3, right, "mistyped"));
  }

  private void finished(String plan) throws Exception {
    begin(plan);
    int minutes = 58;
    int day = 9;
    while (!CourseState.of(log()).toCome().isEmpty()) {
      int number = CourseState.of(log()).toCome().get(0).number();
      add(
          visit(
              number,
              "2026-03-%02d".formatted(day),
              0,
              "\"clinician\": \"C2\", \"minutes\": " + minutes));
      minutes += 14;
      day += 9;
    }
  }

  private void universal() throws Exception {
    begin("universal-numbering");
    add(
        visit(
            1,
            "2026-03-20",
            0,
            """
            "numbering": "universal", "clinician": "C2", "minutes": 88,
            "found": [
              {"what": "failed-injection", "injection": "inferior alveolar", "quadrant": "LR"},
              {"what": "depth", "tooth": "3", "aspect": "facial", "site": "mesial", "depthMm": 7}]
            """));
  }
}
