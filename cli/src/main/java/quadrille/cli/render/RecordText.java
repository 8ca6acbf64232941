package quadrille.cli.render;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.SortedSet;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Numbering;
import quadrille.facts.chart.Tooth;
import quadrille.facts.practice.Practice;
import quadrille.plan.course.StopQuestion;
import quadrille.plan.course.Visit;
import quadrille.treatment.record.Corrected;
import quadrille.treatment.record.CourseLog;
import quadrille.treatment.record.CourseProgress;
import quadrille.treatment.record.CourseState;
import quadrille.treatment.record.Doubt;
import quadrille.treatment.record.Doubts;
import quadrille.treatment.record.Event;
import quadrille.treatment.record.Extent;
import quadrille.treatment.record.LogEntry;
import quadrille.treatment.record.StepDone;
import quadrille.treatment.record.VisitDone;

/** A course's log, as text. */
public final class RecordText {
  private final CourseLog log;
  private final CourseProgress progress;
  private final CourseState state;
  private final Numbering numbering;
  private final Page page;

  private RecordText(CourseLog log, boolean styled) {
    this.log = log;
    this.progress = CourseProgress.of(log);
    this.state = progress.state();
    this.numbering = log.numbering();
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

  /** That an entry is missing. */
  public static String torn(int number) {
    return "Entry " + number + " at the end was cut off while it was being written and is missing.";
  }

  private void standing() {
    page.heading("Course of " + state.course().caseName());
    if (log.torn() != null) {
      page.paragraph(torn(log.torn()));
    }
    if (numbering == Numbering.UNIVERSAL) {
      page.paragraph("Teeth are numbered 1 to 32 from the upper right third molar.");
      page.blank();
    }
    List<StopQuestion> asked = MindWords.asked(state.toCome());
    if (!asked.isEmpty()) {
      page.paragraph("STOP at every visit to come, answered before anything is touched:");
      page.items(asked.stream().map(MindWords::of).toList());
      page.blank();
    }
    page.line(
        Page.pad("Visit", 7)
            + Page.pad("Day", 12)
            + Page.padLeft("Planned", 8)
            + Page.padLeft("Took", 6)
            + Page.padLeft("Booked", 8)
            + "  Work");
    for (CourseProgress.OfVisit visit : progress.visits()) {
      CourseLog.@Nullable Recorded recorded = visit.recorded();
      @Nullable Visit planned = visit.planned();
      Event.@Nullable Appointment booked = visit.promised();
      String expected = planned == null ? "" : number(planned.expectedSeconds() / 60.0);
      if (recorded != null) {
        VisitDone done = recorded.done();
        row(
            done.visit(),
            done.date().toString(),
            expected,
            done.minutes() == null ? "" : number(done.minutes()),
            done.bookedMinutes(),
            work(visit) + (done.interrupted() ? "; interrupted" : ""));
      } else if (planned != null) {
        row(
            visit.number(),
            booked == null ? "to come" : booked.start().toLocalDate().toString(),
            expected,
            "",
            booked == null ? planned.bookedMinutes() : booked.minutes(),
            work(visit));
      }
    }
    if (!progress.leftOver().isEmpty()) {
      page.heading("Left over, in no visit to come");
      page.items(leftOver(progress, numbering));
    }
    List<Doubt> doubts = Doubts.of(log);
    if (!doubts.isEmpty()) {
      page.heading("To look at again");
      page.items(
          doubts.stream()
              .map(doubt -> DoubtWords.withEntry(doubt, numbering, log.practice()))
              .toList());
    }
    List<String> found =
        state.findings().stream()
            .map(
                one ->
                    "visit "
                        + one.visit()
                        + ": "
                        + FindingWords.finding(one.finding(), numbering, log.practice()))
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

  /**
   * The areas of a visit: done, part done with what is missing, not done; to do, where the visit is
   * to come.
   */
  private String work(CourseProgress.OfVisit visit) {
    boolean toCome = visit.recorded() == null;
    List<String> words = new ArrayList<>();
    for (Extent extent : Extent.values()) {
      List<String> areas = visit.areas(extent).stream().map(area -> area(area, toCome)).toList();
      if (!areas.isEmpty()) {
        String word =
            !toCome
                ? extent.word()
                : extent == Extent.NOT_DONE ? "to do" : extent.word() + " before";
        words.add(word + ": " + String.join(", ", areas));
      }
    }
    return words.isEmpty() ? "nothing was planned" : String.join("; ", words);
  }

  private String area(CourseProgress.OfArea area, boolean toCome) {
    String name = area.area().name(numbering);
    String early = area.planned() ? "" : ", early";
    return area.extent() != Extent.PART_DONE
        ? name + (early.isEmpty() ? "" : " (early)")
        : name + " (" + passes(area, toCome) + early + ")";
  }

  /** The passes of an area that are not wholly done, with the share of each. */
  public static String passes(CourseProgress.OfArea area, boolean toCome) {
    return String.join(
        ", ",
        area.passes().stream()
            .filter(pass -> pass.extent() != Extent.DONE)
            .map(
                pass ->
                    pass.pass().word()
                        + (pass.extent() == Extent.PART_DONE
                            ? " " + share(pass.share()) + " done"
                            : toCome ? " to do" : " not done"))
            .toList());
  }

  /** What is not wholly done never reads as all, nor what is begun as none. */
  public static String share(double share) {
    return share < 1 && share > 0.995 ? ">99\u00a0%" : Words.percent(share);
  }

  /** What was left over, a line for each pass of an area. */
  public static List<String> leftOver(CourseProgress progress, Numbering numbering) {
    Map<String, SortedSet<Tooth>> teeth = new LinkedHashMap<>();
    for (CourseProgress.LeftOver left : progress.leftOver()) {
      teeth
          .computeIfAbsent(
              left.area().name(numbering)
                  + ", "
                  + left.pass().word()
                  + ", of visit "
                  + left.visit(),
              line -> new TreeSet<>())
          .addAll(left.teeth());
    }
    List<String> lines = new ArrayList<>();
    teeth.forEach((line, all) -> lines.add(line + ": " + Words.teeth(all, numbering)));
    return lines;
  }

  /** By pass and area: all of it, a share, or none. */
  static String work(VisitDone done, Numbering numbering) {
    Map<String, List<StepDone>> passes = new LinkedHashMap<>();
    for (StepDone step : done.steps()) {
      passes
          .computeIfAbsent(
              step.area().name(numbering) + " " + step.pass().word(), name -> new ArrayList<>())
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

  private void entries() {
    page.heading("Entries");
    for (Line line : lines(log, numbering)) {
      page.hang(
          Page.padLeft(Integer.toString(line.entry()), 3) + "  ",
          5,
          line.at()
              + ", "
              + line.kind()
              + ": "
              + line.says()
              + (line.correctedBy() == 0 ? "" : ". CORRECTED by entry " + line.correctedBy()));
    }
  }

  /**
   * An entry of the log.
   *
   * @param kind its word
   * @param correctedBy number of the entry that takes its place; 0 where none does
   */
  public record Line(int entry, String at, String kind, String says, int correctedBy) {}

  /** Every entry, in order; teeth by this numbering. */
  public static List<Line> lines(CourseLog log, Numbering numbering) {
    return log.entries().stream()
        .map(
            entry ->
                new Line(
                    entry.number(),
                    entry.at().toString(),
                    entry.event().word(),
                    says(entry, numbering, log.practice()),
                    correctedBy(log, entry)))
        .toList();
  }

  private static int correctedBy(CourseLog log, LogEntry entry) {
    return log.entries().stream()
        .filter(
            other ->
                other.event() instanceof Corrected corrected && corrected.entry() == entry.number())
        .mapToInt(LogEntry::number)
        .findFirst()
        .orElse(0);
  }

  private static String says(LogEntry entry, Numbering numbering, Practice practice) {
    Event event = entry.event();
    if (event instanceof Event.Planned planned) {
      return Words.count(planned.course().visits().size(), "visit")
          + ", practice "
          + planned.practice().name();
    }
    if (event instanceof VisitDone done) {
      return visit(done, numbering, practice);
    }
    if (event instanceof Corrected corrected) {
      return "in place of entry "
          + corrected.entry()
          + ": "
          + visit(corrected.instead(), numbering, practice)
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
    if (event instanceof Event.TeethConfirmed confirmed) {
      return "tooth "
          + Words.teeth(confirmed.teeth(), numbering)
          + " is right as recorded, says "
          + confirmed.by();
    }
    Event.Replanned replanned = (Event.Replanned) event;
    return replanned.changes().isEmpty()
        ? "nothing changed"
        : String.join(
                " ",
                replanned.changes().stream()
                    .map(change -> ChangeWords.what(change, numbering, practice))
                    .toList())
            + (entry.numbering() == null && numbering != Numbering.ISO3950
                ? " (its teeth by ISO 3950 codes)"
                : "");
  }

  private static String visit(VisitDone done, Numbering numbering, Practice practice) {
    List<String> words = new ArrayList<>();
    words.add("visit " + done.visit() + " on " + done.date() + " by " + done.clinician());
    words.add(work(done, numbering));
    if (done.minutes() != null) {
      words.add(number(done.minutes()) + " min");
    }
    done.injections().forEach(given -> words.add(FindingWords.given(given, numbering, practice)));
    done.findings()
        .forEach(finding -> words.add(FindingWords.finding(finding, numbering, practice)));
    if (!done.note().isEmpty()) {
      words.add("\"" + done.note() + "\"");
    }
    return String.join("; ", words);
  }
}
