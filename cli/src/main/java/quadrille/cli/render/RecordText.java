package quadrille.cli.render;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import quadrille.course.Visit;
import quadrille.record.Corrected;
import quadrille.record.CourseLog;
import quadrille.record.CourseState;
import quadrille.record.Event;
import quadrille.record.Finding;
import quadrille.record.Given;
import quadrille.record.LogEntry;
import quadrille.record.StepDone;
import quadrille.record.VisitDone;
import quadrille.record.VisitRecordReader;

/** A course's log, as text. */
public final class RecordText {
  private final CourseLog log;
  private final CourseState state;
  private final Page page;

  private RecordText(CourseLog log, boolean styled) {
    this.log = log;
    this.state = CourseState.of(log);
    this.page = new Page(styled);
  }

  /**
   * Renders it.
   *
   * @param all whether to show every entry, those corrected too
   * @param styled whether headings are set off by terminal codes
   */
  public static String of(CourseLog log, boolean all, boolean styled) {
    RecordText text = new RecordText(log, styled);
    text.standing();
    if (all) {
      text.entries();
    }
    return text.page.text();
  }

  private void standing() {
    page.heading("Course of " + state.course().caseName());
    if (log.torn() != null) {
      page.paragraph(log.torn());
    }
    page.line(
        Page.pad("Visit", 7)
            + Page.pad("Day", 12)
            + Page.padLeft("Planned", 8)
            + Page.padLeft("Took", 6)
            + Page.padLeft("Booked", 8)
            + "  Work");
    for (CourseLog.Recorded one : state.recorded()) {
      VisitDone done = one.done();
      Visit planned = one.planned();
      row(
          done.visit(),
          done.date().toString(),
          planned == null ? "" : number(planned.expectedSeconds() / 60.0),
          done.minutes() == null ? "" : number(done.minutes()),
          done.bookedMinutes(),
          work(done) + (done.interrupted() ? "; interrupted" : ""));
    }
    for (Visit visit : state.toCome()) {
      Event.@Nullable Appointment booked = state.booked().get(visit.number());
      row(
          visit.number(),
          booked == null ? "to come" : booked.start().toLocalDate().toString(),
          number(visit.expectedSeconds() / 60.0),
          "",
          booked == null ? visit.bookedMinutes() : booked.minutes(),
          "to do: " + String.join(", ", visit.areas()));
    }
    List<String> found =
        state.findings().stream()
            .map(one -> "visit " + one.visit() + ": " + finding(one.finding()))
            .toList();
    if (!found.isEmpty()) {
      page.heading("Found");
      page.items(found);
    }
    page.blank();
    page.paragraph("plan --course stages what is left. " + PlanText.PROPOSAL);
  }

  private void row(int visit, String day, String planned, String took, int booked, String work) {
    page.hang(
        Page.pad(Integer.toString(visit), 7)
            + Page.pad(day, 12)
            + Page.padLeft(planned, 8)
            + Page.padLeft(took, 6)
            + Page.padLeft(Integer.toString(booked), 8)
            + "  ",
        43,
        work);
  }

  private static String number(double minutes) {
    return String.format(Locale.ROOT, "%.0f", minutes);
  }

  /** By pass and area: all of it, a share, or none. */
  static String work(VisitDone done) {
    Map<String, List<StepDone>> passes = new LinkedHashMap<>();
    for (StepDone step : done.steps()) {
      passes
          .computeIfAbsent(step.area() + " " + step.pass().word(), name -> new ArrayList<>())
          .add(step);
    }
    List<String> open = new ArrayList<>();
    int whole = 0;
    for (Map.Entry<String, List<StepDone>> pass : passes.entrySet()) {
      if (pass.getValue().stream().allMatch(StepDone::whole)) {
        whole++;
        continue;
      }
      for (StepDone step : pass.getValue()) {
        if (!step.whole()) {
          open.add(
              pass.getKey()
                  + " "
                  + step.aspect().word()
                  + (step.share() == 0
                      ? " not done"
                      : " " + Words.percent(step.share()) + " done"));
        }
      }
    }
    String all = whole == passes.size() ? "all done" : whole + " of " + passes.size() + " passes";
    return open.isEmpty() ? all : all + "; " + String.join("; ", open);
  }

  static String finding(Finding finding) {
    if (finding instanceof Finding.Depth depth) {
      Boolean bleeding = depth.bleeding();
      return depth.tooth()
          + " "
          + depth.aspect().word()
          + " "
          + VisitRecordReader.sites().get(depth.site())
          + " "
          + depth.depthMm()
          + " mm"
          + (bleeding == null ? "" : bleeding ? ", bleeding" : ", no bleeding");
    }
    if (finding instanceof Finding.FailedInjection failed) {
      return "the " + failed.words() + " did not take";
    }
    return "a sleeve broke at " + ((Finding.BrokenSleeve) finding).tooth();
  }

  private void entries() {
    page.heading("Entries");
    for (LogEntry entry : log.entries()) {
      page.hang(
          Page.padLeft(Integer.toString(entry.number()), 3) + "  ",
          5,
          entry.at() + ", " + entry.event().word() + ": " + says(entry) + correctedBy(entry));
    }
  }

  private String correctedBy(LogEntry entry) {
    return log.entries().stream()
        .filter(
            other ->
                other.event() instanceof Corrected corrected && corrected.entry() == entry.number())
        .map(other -> ". CORRECTED by entry " + other.number())
        .findFirst()
        .orElse("");
  }

  private static String says(LogEntry entry) {
    Event event = entry.event();
    if (event instanceof Event.Planned planned) {
      return Words.count(planned.course().visits().size(), "visit")
          + ", practice "
          + planned.practice().name();
    }
    if (event instanceof VisitDone done) {
      return visit(done);
    }
    if (event instanceof Corrected corrected) {
      return "in place of entry "
          + corrected.entry()
          + ": "
          + visit(corrected.instead())
          + (corrected.why().isEmpty() ? "" : " (" + corrected.why() + ")");
    }
    if (event instanceof Event.Booked booked) {
      return String.join(
          "; ",
          booked.visits().stream()
              .map(
                  visit ->
                      "visit "
                          + visit.visit()
                          + " "
                          + visit.start()
                          + ", "
                          + visit.minutes()
                          + " min"
                          + (visit.clinician() == null ? "" : ", " + visit.clinician()))
              .toList());
    }
    Event.Replanned replanned = (Event.Replanned) event;
    return replanned.changes().isEmpty()
        ? "nothing changed"
        : String.join(" ", replanned.changes().stream().map(Event.Change::what).toList());
  }

  private static String visit(VisitDone done) {
    List<String> words = new ArrayList<>();
    words.add("visit " + done.visit() + " on " + done.date() + " by " + done.clinician());
    words.add(work(done));
    if (done.minutes() != null) {
      words.add(number(done.minutes()) + " min");
    }
    for (Given given : done.injections()) {
      words.add(given.words() + " " + Words.number(given.ml(), 2) + " mL " + given.agent());
    }
    done.findings().forEach(finding -> words.add(finding(finding)));
    if (!done.note().isEmpty()) {
      words.add("\"" + done.note() + "\"");
    }
    return String.join("; ", words);
  }
}
