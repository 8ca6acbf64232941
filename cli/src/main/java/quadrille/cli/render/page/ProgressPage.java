package quadrille.cli.render.page;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import org.jspecify.annotations.Nullable;
import quadrille.cli.render.ChangeWords;
import quadrille.cli.render.CorrectionWords;
import quadrille.cli.render.DoubtWords;
import quadrille.cli.render.FindingWords;
import quadrille.cli.render.MindWords;
import quadrille.cli.render.RecordText;
import quadrille.cli.render.Words;
import quadrille.cli.render.picture.MouthMap;
import quadrille.cli.render.picture.TimeStrips;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.Chart;
import quadrille.facts.practice.Pass;
import quadrille.facts.practice.Practice;
import quadrille.plan.anaesthesia.Doses;
import quadrille.plan.course.Entry;
import quadrille.plan.course.GivenInjection;
import quadrille.plan.course.InjectionRef;
import quadrille.plan.course.Visit;
import quadrille.treatment.record.CourseLog;
import quadrille.treatment.record.CourseProgress;
import quadrille.treatment.record.CourseState;
import quadrille.treatment.record.Doubts;
import quadrille.treatment.record.Event;
import quadrille.treatment.record.Extent;
import quadrille.treatment.record.Given;
import quadrille.treatment.record.GivenDoses;
import quadrille.treatment.record.LogEntry;
import quadrille.treatment.record.Observation;
import quadrille.treatment.record.PartMinutes;
import quadrille.treatment.record.StepDone;
import quadrille.treatment.record.VisitDone;

/**
 * How far a course has come, for the practice: what is done, what is left, what it took.
 *
 * @param summary the course in sentences
 * @param torn what is missing at the log's end; empty where nothing is
 * @param stops what is asked at every visit to come
 * @param doubts what in the log is worth a second look
 * @param leftOver work that has no visit, a line for each
 * @param times what was promised of the time and what happened
 * @param kept how many visits kept their time, a sentence; empty before any
 * @param parts passes that were timed by themselves
 * @param given what was injected, a table for each visit that took place
 * @param replans how the plan changed
 * @param log every entry
 * @param cautions for the visits to come
 */
public record ProgressPage(
    Heading heading,
    List<String> summary,
    String torn,
    List<String> stops,
    List<String> doubts,
    List<String> leftOver,
    MouthMap map,
    List<Row> visits,
    TimeStrips strips,
    List<Time> times,
    String kept,
    List<Part> parts,
    List<VisitGiven> given,
    List<Found> found,
    List<Replan> replans,
    List<CorrectionWords.Correction> corrections,
    List<RecordText.Line> log,
    List<HeldWork> held,
    List<String> cautions) {

  /** A visit: its work, its appointment, its day. */
  public record Row(
      int visit, boolean tookPlace, List<Work> work, String promised, String tookPlaceOn) {}

  /** Areas that have come equally far. */
  public record Work(String kind, String word, String areas) {}

  /** A visit's minutes. */
  public record Time(
      int visit, String planned, String booked, String chance, String took, String outcome) {}

  /** One pass that was timed by itself. */
  public record Part(int visit, String work, String planned, String took) {}

  /**
   * What a visit gave.
   *
   * @param doses against their maxima, a sentence each
   */
  public record VisitGiven(int visit, String date, List<Injection> injections, List<Dose> doses) {}

  /** An injection: as planned, and as given. */
  public record Injection(
      String where, String agent, String plannedMl, String givenMl, String remark) {}

  /** A dose against its maximum. */
  public record Dose(String words, boolean over) {}

  /** A finding. */
  public record Found(int visit, String date, String what) {}

  /** A new plan. */
  public record Replan(int entry, String day, List<Change> changes) {}

  /** A change, and why. */
  public record Change(String what, String why) {}

  static ProgressPage of(CourseLog log) {
    return new Making(log).page();
  }

  private static final class Making {
    private final CourseLog log;
    private final CourseProgress progress;
    private final CourseState state;
    private final Chart chart;
    private final Practice practice;

    Making(CourseLog log) {
      this.log = log;
      this.progress = CourseProgress.of(log);
      this.state = progress.state();
      this.chart = state.chart();
      this.practice = log.practice();
    }

    ProgressPage page() {
      return new ProgressPage(
          Heading.of(state.course(), chart, practice),
          summary(),
          log.torn() == null ? "" : RecordText.torn(log.torn()),
          MindWords.asked(state.toCome()).stream().map(MindWords::of).toList(),
          Doubts.of(log).stream()
              .map(doubt -> Words.capital(DoubtWords.withEntry(doubt, chart.numbering(), practice)))
              .toList(),
          RecordText.leftOver(progress, chart.numbering()),
          map(),
          progress.visits().stream().map(this::row).toList(),
          TimeStrips.of(progress),
          progress.visits().stream().map(this::time).toList(),
          kept(),
          parts(),
          given(),
          state.findings().stream().map(this::found).toList(),
          replans(),
          CorrectionWords.of(log, chart.numbering()),
          lines(),
          HeldWork.of(state.course(), chart, practice),
          cautions());
    }

    // ---- where it stands

    private List<String> summary() {
      List<String> sentences = new ArrayList<>();
      int done = state.recorded().size();
      int all = done + state.toCome().size();
      if (all == 0) {
        return List.of("Nothing is due: no visit is planned.");
      }
      sentences.add(
          done == 0
              ? "No visit has taken place yet; " + Words.count(all, "visit") + " to come."
              : done + " of " + Words.count(all, "visit") + " took place.");
      sentences.add(
          "By planned working time, "
              + RecordText.share(progress.share())
              + " of the work is done.");
      if (!state.toCome().isEmpty()) {
        sentences.add(next(state.toCome().get(0)));
      } else if (progress.leftOver().isEmpty()) {
        sentences.add(
            state.course().leadsToReevaluation()
                ? "Nothing is left; "
                    + Words.afterwards(state.course())
                    + (state.lastDay() == null
                        ? "."
                        : ", "
                            + state.lastDay().plusWeeks(state.course().reevaluateFromWeeks())
                            + " to "
                            + state.lastDay().plusWeeks(state.course().reevaluateToWeeks())
                            + ".")
                : "Nothing of this plan is left; " + Words.afterwards(state.course()) + ".");
      }
      return sentences;
    }

    private String next(Visit visit) {
      Event.@Nullable Appointment booked = state.booked().get(visit.number());
      String numb = VisitSheet.numb(visit);
      return booked == null
          ? "Next: visit "
              + visit.number()
              + ", not booked yet; "
              + visit.bookedMinutes()
              + "\u00a0min by the plan, "
              + numb
              + "."
          : "Next: visit "
              + visit.number()
              + " on "
              + BookingWords.appointment(booked)
              + ", "
              + numb
              + ".";
    }

    private record AreaPass(AreaRef area, Pass pass) {}

    private MouthMap map() {
      List<MouthMap.Work> work = new ArrayList<>();
      for (CourseLog.Recorded one : state.recorded()) {
        for (StepDone step : one.done().steps()) {
          boolean left =
              step.teeth().stream()
                  .anyMatch(tooth -> state.done().anyLeft(tooth, step.pass(), step.aspect()));
          boolean open = leftOver(one.done().visit(), step);
          if (step.share() > 0 || open) {
            Extent extent =
                !left ? Extent.DONE : step.share() > 0 ? Extent.PART_DONE : Extent.NOT_DONE;
            work.add(
                new MouthMap.Work(
                    step.area(), step.teeth(), step.pass(), one.done().visit(), extent));
          }
        }
      }
      for (CourseProgress.OfVisit visit : progress.visits()) {
        @Nullable Visit planned = visit.planned();
        if (visit.recorded() == null && planned != null) {
          Map<AreaPass, Extent> extents = new LinkedHashMap<>();
          for (CourseProgress.OfArea area : visit.areas()) {
            area.passes()
                .forEach(p -> extents.put(new AreaPass(area.area(), p.pass()), p.extent()));
          }
          for (Entry.Debride step : planned.steps()) {
            Extent extent = extents.get(new AreaPass(step.area(), step.pass()));
            // What was done before its visit is drawn with the visit that did it.
            if (extent != null && extent != Extent.DONE) {
              work.add(
                  new MouthMap.Work(
                      step.area(), step.teeth(), step.pass(), planned.number(), extent));
            }
          }
        }
      }
      return MouthMap.of(state.course(), chart, work);
    }

    private boolean leftOver(int visit, StepDone step) {
      return progress.leftOver().stream()
          .anyMatch(
              left ->
                  left.visit() == visit
                      && left.area().equals(step.area())
                      && left.pass() == step.pass()
                      && step.teeth().stream().anyMatch(left.teeth()::contains));
    }

    private Row row(CourseProgress.OfVisit visit) {
      boolean took = visit.recorded() != null;
      List<Work> work = new ArrayList<>();
      for (Extent extent : Extent.values()) {
        List<String> areas =
            visit.areas(extent).stream()
                .map(
                    area ->
                        Words.area(area.area(), chart)
                            + (area.extent() == Extent.PART_DONE
                                ? " (" + RecordText.passes(area, !took) + ")"
                                : "")
                            + (area.planned() ? "" : ", early")
                            + madeUp(visit.number(), area))
                .toList();
        if (!areas.isEmpty()) {
          work.add(
              new Work(
                  extent.word().replace(' ', '-'),
                  took
                      ? extent.word()
                      : extent == Extent.NOT_DONE ? "to do" : extent.word() + " before",
                  String.join("; ", areas)));
        }
      }
      Event.@Nullable Appointment promised = visit.promised();
      String tookPlace = "";
      if (visit.recorded() != null) {
        VisitDone done = visit.recorded().done();
        tookPlace =
            done.date()
                + ", "
                + done.clinician()
                + (done.interrupted() ? "; interrupted" : "")
                + (done.note().isEmpty() ? "" : "; “" + done.note() + "”");
      }
      return new Row(
          visit.number(),
          took,
          work,
          promised == null ? (took ? "–" : "not booked yet") : BookingWords.appointment(promised),
          took ? tookPlace : "to come");
    }

    private String madeUp(int visit, CourseProgress.OfArea area) {
      OptionalInt by = progress.madeUp(visit, area.area());
      return area.extent() != Extent.DONE && by.isPresent()
          ? ", made up in visit " + by.getAsInt()
          : "";
    }

    // ---- minutes

    private Time time(CourseProgress.OfVisit visit) {
      @Nullable Visit planned = visit.planned();
      int booked = TimeStrips.booked(visit);
      String chance = "–";
      String planBooked = "";
      if (planned != null) {
        if (planned.bookedMinutes() == booked) {
          chance = Words.percent(1 - planned.overrunRisk());
        } else {
          planBooked = "; the plan asks for " + planned.bookedMinutes();
        }
      }
      String took = "";
      String outcome = "to come";
      if (visit.recorded() != null) {
        VisitDone done = visit.recorded().done();
        took = done.minutes() == null ? "–" : Words.number(done.minutes(), 1) + "\u00a0min";
        outcome = outcome(visit, done);
      }
      return new Time(
          visit.number(),
          planned == null ? "–" : Words.minutes(planned.expectedSeconds()),
          booked + "\u00a0min" + planBooked,
          chance,
          took,
          outcome);
    }

    private static String outcome(CourseProgress.OfVisit visit, VisitDone done) {
      @Nullable Double minutes = done.minutes();
      if (minutes == null) {
        return "only parts of it were timed";
      }
      double over = minutes - done.bookedMinutes();
      String words =
          over > 0
              ? Words.number(over, 1) + "\u00a0min over"
              : over < 0 ? "in time, " + Words.number(-over, 1) + "\u00a0min spare" : "in time";
      if (!allDone(visit)) {
        words += ", not all done";
      }
      return words + (done.interrupted() ? "; interrupted, so not counted" : "");
    }

    private static boolean allDone(CourseProgress.OfVisit visit) {
      return visit.areas().stream()
          .filter(CourseProgress.OfArea::planned)
          .allMatch(area -> area.extent() == Extent.DONE);
    }

    private String kept() {
      int counted = 0;
      int inTime = 0;
      int promised = 0;
      double chance = 0;
      for (CourseProgress.OfVisit visit : progress.visits()) {
        if (visit.recorded() == null) {
          continue;
        }
        VisitDone done = visit.recorded().done();
        @Nullable Double minutes = done.minutes();
        if (minutes == null || done.interrupted()) {
          continue;
        }
        counted++;
        inTime += minutes <= done.bookedMinutes() && allDone(visit) ? 1 : 0;
        @Nullable Visit planned = visit.planned();
        if (planned != null && planned.bookedMinutes() == done.bookedMinutes()) {
          promised++;
          chance += 1 - planned.overrunRisk();
        }
      }
      if (counted == 0) {
        return "";
      }
      return inTime
          + " of "
          + Words.count(counted, "visit")
          + " ended in the booked time with all of it done"
          + (promised == 0
              ? "."
              : "; the plan had promised that with "
                  + Words.percent(chance / promised)
                  + (promised == 1 ? "." : " on average."))
          + " So few visits show little; calibrate looks at all courses of the practice.";
    }

    private List<Part> parts() {
      List<Part> parts = new ArrayList<>();
      for (CourseProgress.OfVisit visit : progress.visits()) {
        if (visit.recorded() == null) {
          continue;
        }
        for (PartMinutes part : visit.recorded().done().parts()) {
          double seconds = 0;
          for (CourseProgress.OfArea area : visit.areas()) {
            for (CourseProgress.OfPass pass : area.passes()) {
              if (area.area().equals(part.area()) && pass.pass() == part.pass()) {
                seconds += pass.seconds();
              }
            }
          }
          parts.add(
              new Part(
                  visit.number(),
                  Words.area(part.area(), chart) + ", " + part.pass().word(),
                  seconds == 0 ? "–" : Words.number(seconds / 60, 1) + "\u00a0min",
                  Words.number(part.minutes(), 1) + "\u00a0min"));
        }
      }
      return parts;
    }

    // ---- injections

    private List<VisitGiven> given() {
      List<VisitGiven> given = new ArrayList<>();
      for (CourseProgress.OfVisit visit : progress.visits()) {
        CourseLog.@Nullable Recorded recorded = visit.recorded();
        if (recorded != null) {
          given.add(
              new VisitGiven(
                  visit.number(),
                  recorded.done().date().toString(),
                  injections(visit.planned(), recorded.done()),
                  doses(recorded)));
        }
      }
      return given;
    }

    private List<Injection> injections(@Nullable Visit planned, VisitDone done) {
      List<GivenInjection> open =
          new ArrayList<>(planned == null ? List.of() : planned.injections());
      List<Injection> lines = new ArrayList<>();
      for (Given given : done.injections()) {
        @Nullable GivenInjection plan =
            open.stream().filter(one -> ref(one).equals(given.ref())).findFirst().orElse(null);
        open.remove(plan);
        List<String> remarks = new ArrayList<>();
        if (!failed(done, given).isEmpty()) {
          remarks.add(failed(done, given));
        }
        if (plan == null) {
          remarks.add("not planned");
        } else if (!plan.agent().equals(given.agent())) {
          remarks.add("planned with " + Words.agent(plan.agent(), practice));
        }
        lines.add(
            new Injection(
                Words.capital(
                    new InjectionRef(given.injection(), given.quadrant(), given.tooth())
                        .name(chart.numbering())),
                Words.agent(given.agent(), practice),
                plan == null ? "–" : Words.number(plan.ml(), 2),
                Words.number(given.ml(), 2),
                String.join("; ", remarks)));
      }
      for (GivenInjection plan : open) {
        lines.add(
            new Injection(
                Words.capital(Words.injection(plan.ref(), chart.numbering(), practice)),
                Words.agent(plan.agent(), practice),
                Words.number(plan.ml(), 2),
                "–",
                "not given"));
      }
      done.gelCartridges()
          .forEach(
              (quadrant, cartridges) ->
                  lines.add(
                      new Injection(
                          Words.capital(practice.gel().name()) + " in " + quadrant,
                          Words.number(cartridges, 2) + " of a cartridge",
                          "–",
                          "–",
                          "no needle")));
      return lines;
    }

    private static InjectionRef ref(GivenInjection planned) {
      return new InjectionRef(planned.injection(), planned.quadrant(), planned.tooth());
    }

    /**
     * A record that names a place where an injection was repeated does not say which one it was.
     */
    private static String failed(VisitDone done, Given given) {
      long failures =
          done.findings().stream()
              .filter(
                  finding ->
                      finding instanceof Observation.FailedInjection failed
                          && failed.ref().equals(given.ref()))
              .count();
      long times = done.injections().stream().filter(one -> one.ref().equals(given.ref())).count();
      return failures == 0
          ? ""
          : failures >= times
              ? "did not take"
              : failures + " of the " + times + " here did not take";
    }

    private List<Dose> doses(CourseLog.Recorded visit) {
      Doses.Check check = GivenDoses.check(log, visit);
      List<Dose> doses = new ArrayList<>();
      for (Doses.Share share : check.shares()) {
        boolean gel = share.name().equals(practice.gel().name());
        String unit = gel ? " cartridges" : "\u00a0mg";
        doses.add(
            Double.isInfinite(share.share())
                ? new Dose(
                    Words.agent(share.name(), practice)
                        + ": "
                        + Words.number(share.given(), 1)
                        + unit
                        + "; the maximum is not known, as the weight is not",
                    false)
                : new Dose(
                    Words.agent(share.name(), practice)
                        + ": "
                        + Words.number(share.given(), 1)
                        + " of at most "
                        + Words.number(share.most(), 1)
                        + unit
                        + ", "
                        + Words.percent(share.share()),
                    share.share() > 1 + 1e-9));
      }
      if (check.shares().size() > 1 && !Double.isInfinite(check.share())) {
        doses.add(
            new Dose(
                "shares together " + Words.percent(check.share()) + " of at most 100\u00a0%",
                check.share() > 1 + 1e-9));
      }
      if (check.epinephrineMg() > 0) {
        doses.add(
            new Dose(
                "epinephrine: "
                    + Words.number(check.epinephrineMg(), 4)
                    + " of at most "
                    + Words.number(check.epinephrineCapMg(), 3)
                    + "\u00a0mg",
                check.epinephrineMg() > check.epinephrineCapMg() + 1e-9));
      }
      return doses;
    }

    // ---- what was found, and what changed

    private Found found(CourseState.Found one) {
      return new Found(
          one.visit(),
          one.date().toString(),
          Words.capital(FindingWords.finding(one.finding(), chart.numbering(), practice)));
    }

    private List<Replan> replans() {
      List<Replan> replans = new ArrayList<>();
      for (LogEntry entry : log.entries()) {
        if (entry.event() instanceof Event.Replanned replanned) {
          replans.add(
              new Replan(
                  entry.number(),
                  entry.at().toLocalDate().toString(),
                  replanned.changes().stream()
                      .map(
                          change ->
                              new Change(
                                  ChangeWords.what(change, chart.numbering(), practice),
                                  ChangeWords.why(change)))
                      .toList()));
        }
      }
      return replans;
    }

    /** A new plan's changes are told above, each with its reason. */
    private List<RecordText.Line> lines() {
      List<RecordText.Line> lines = new ArrayList<>();
      for (RecordText.Line line : RecordText.lines(log, chart.numbering())) {
        Event event = log.entries().get(line.entry() - 1).event();
        lines.add(
            event instanceof Event.Replanned replanned
                ? new RecordText.Line(
                    line.entry(),
                    line.at(),
                    line.kind(),
                    Words.count(replanned.changes().size(), "change") + ", as told above",
                    line.correctedBy())
                : line);
      }
      return lines;
    }

    private List<String> cautions() {
      List<String> cautions =
          new ArrayList<>(MindWords.cautions(state.course().cautions(), chart.numbering()));
      for (Visit visit : state.toCome()) {
        MindWords.cautions(visit.cautions(), chart.numbering())
            .forEach(caution -> cautions.add("Visit " + visit.number() + ": " + caution));
      }
      return cautions;
    }
  }
}
