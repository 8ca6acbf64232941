package quadrille.cli.render;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Half;
import quadrille.facts.chart.Numbering;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.practice.Pass;
import quadrille.facts.practice.PatientRules;
import quadrille.facts.practice.Practice;
import quadrille.plan.course.Caution;
import quadrille.plan.course.Course;
import quadrille.plan.course.Dose;
import quadrille.plan.course.Entry;
import quadrille.plan.course.GivenInjection;
import quadrille.plan.course.InjectionRef;
import quadrille.plan.course.NumbSide;
import quadrille.plan.course.OneVisitFewer;
import quadrille.plan.course.Visit;
import quadrille.plan.work.StepAspect;

/** A course as text that can lie beside the chair: at a glance first, then visit by visit. */
public final class PlanText {

  /** Said wherever a plan is shown. */
  static final String PROPOSAL =
      "A proposal for a licensed clinician to check. Dose limits and codes follow local rules.";

  /** So many assumptions are shown where there are clearly more; the rest is for the asking. */
  private static final int MOST_ASSUMPTIONS = 6;

  private static final int FEW_MORE = 2;

  private static final int LABEL = 10;
  private static final int AREAS_COLUMN = 53;

  private final Chart chart;
  private final Practice practice;
  private final Course course;
  private final boolean allAssumptions;
  private final Page page;

  private PlanText(
      Chart chart, Practice practice, Course course, boolean allAssumptions, boolean styled) {
    this.chart = chart;
    this.practice = practice;
    this.course = course;
    this.allAssumptions = allAssumptions;
    this.page = new Page(styled);
  }

  /**
   * Renders a course.
   *
   * @param chart the mouth, for its numbering
   * @param practice whose agents and limits the course uses
   * @param allAssumptions whether to list every assumption rather than those that mattered most
   * @param styled whether headings are set off by terminal codes
   */
  public static String of(
      Chart chart, Practice practice, Course course, boolean allAssumptions, boolean styled) {
    PlanText text = new PlanText(chart, practice, course, allAssumptions, styled);
    text.top();
    text.history();
    text.heldBack();
    text.glance();
    course.visits().forEach(text::visit);
    text.end();
    return text.page.text();
  }

  private void top() {
    page.heading(
        "Course for "
            + course.caseName()
            + (chart.charted() == null ? "" : ", charted " + chart.charted()));
    page.paragraph(PROPOSAL);
    page.paragraph(
        "Practice file: "
            + practice.name()
            + ". Maximum doses: "
            + practice.ruleSet().word()
            + " rule set.");
    if (chart.numbering() == Numbering.UNIVERSAL) {
      page.paragraph("Teeth are numbered 1 to 32 from the upper right third molar.");
    }
  }

  private void history() {
    if (!chart.patient().history().taken()) {
      page.heading("PROVISIONAL: NOBODY HAS TAKEN THE MEDICAL HISTORY");
      page.paragraph(
          "No anaesthetic is planned. Hold these visits, promise none: all of this is planned again"
              + " when the history is taken.");
    }
    if (chart.patient().notes() != null) {
      page.paragraph("Notes on the chart, not read by the plan: " + chart.patient().notes());
    }
  }

  private void heldBack() {
    if (course.heldBack().isEmpty()) {
      return;
    }
    page.heading("HELD BACK: THIS COURSE LEAVES OUT WORK");
    for (HeldAreas held : HeldAreas.of(course)) {
      page.paragraph(Words.sentence(PlanFileWords.of(practice).reason(held.reason())));
      if (!held.lift().isEmpty()) {
        page.paragraph(held.lift());
      }
      held.lines(chart).forEach(page::item);
      if (held.wholeAreas()) {
        page.paragraph("An area is finished in the visit that begins it, so all of it waits.");
      }
    }
  }

  private void glance() {
    page.heading("At a glance");
    if (course.visits().isEmpty()) {
      page.paragraph("No work is due by the practice's rules, so no visit is planned.");
      return;
    }
    row("Visit", "Numb", "Booked", "Risk", "Inj.", "Cart.", "Dose", "Tips", "Areas");
    for (Visit visit : course.visits()) {
      row(
          Integer.toString(visit.number()),
          visit.numbFront().isEmpty()
              ? visit.numbSide().word()
              : visit.numbSide() == NumbSide.NONE ? "front" : visit.numbSide().word() + "*",
          visit.bookedMinutes() + " min",
          Words.risk(visit.overrunRisk()),
          Integer.toString(visit.injections().size()),
          Integer.toString(visit.cartridges()),
          visit.doses().isEmpty() ? "-" : Words.percent(visit.doseShare()),
          Integer.toString(visit.tipChanges()),
          areas(visit.areas()));
    }
    row(
        "All",
        "",
        course.bookedMinutes() + " min",
        "",
        Integer.toString(course.injections()),
        Integer.toString(course.cartridges()),
        "",
        Integer.toString(course.tipChanges()),
        "");
    page.blank();
    page.paragraph(
        "Risk: of running over the booked time. Cart.: cartridges opened. Dose: share of the"
            + " maximum dose. Tips: changes of insert. post, ant: posterior, anterior."
            + (course.visits().stream().anyMatch(PlanText::acrossTheMidline)
                ? " *: and front teeth across the midline, by infiltration."
                : ""));
    page.blank();
    page.paragraph(
        Words.count(course.visits().size(), "visit")
            + ", "
            + Words.minutes(course.chairSeconds())
            + " of chair time expected"
            + (course.visits().size() < 2 ? "" : ", " + gap())
            + ". "
            + Words.sentence(Words.afterwards(course)));
  }

  private static boolean acrossTheMidline(Visit visit) {
    return visit.numbSide() != NumbSide.NONE && !visit.numbFront().isEmpty();
  }

  private String gap() {
    return course.gapMinDays() == 0
        ? "all on one day"
        : Words.range(course.gapMinDays(), course.gapMaxDays()) + " days between visits";
  }

  private void row(
      String visit,
      String numb,
      String booked,
      String risk,
      String injections,
      String cartridges,
      String dose,
      String tips,
      String areas) {
    page.hang(
        Page.padLeft(visit, 5)
            + "  "
            + Page.pad(numb, 6)
            + Page.padLeft(booked, 8)
            + Page.padLeft(risk, 6)
            + Page.padLeft(injections, 6)
            + Page.padLeft(cartridges, 7)
            + Page.padLeft(dose, 7)
            + Page.padLeft(tips, 6),
        AREAS_COLUMN + 2,
        areas);
  }

  /** Both halves of a quadrant in one breath, so that a visit keeps to one line. */
  private String areas(List<AreaRef> areas) {
    Map<Quadrant, List<String>> byQuadrant = new LinkedHashMap<>();
    for (AreaRef area : areas) {
      int whole = AreaRef.whole(area.quadrant(), area.half()).name(chart.numbering()).length();
      String part = Words.area(area, chart).substring(whole);
      byQuadrant
          .computeIfAbsent(area.quadrant(), q -> new ArrayList<>())
          .add((area.half() == Half.POSTERIOR ? "post" : "ant") + part.replace(' ', '\u00a0'));
    }
    return byQuadrant.entrySet().stream()
        .map(e -> (e.getKey() + "\u00a0" + String.join("+", e.getValue())).strip())
        .collect(Collectors.joining(", "));
  }

  private void visit(Visit visit) {
    page.heading(
        "VISIT "
            + visit.number()
            + " of "
            + course.lastNumber()
            + " - "
            + numb(visit)
            + " - "
            + visit.bookedMinutes()
            + "\u00a0min booked");
    page.paragraph(
        "Expected "
            + Words.minutes(visit.expectedSeconds())
            + ", "
            + Words.risk(visit.overrunRisk())
            + " risk of running over.");
    labels("STOP", MindWords.stopQuestions(visit));
    if (!visit.stopQuestions().isEmpty()) {
      label("", "The visit waits until each is answered.");
    }
    page.blank();
    page.line("  From    Min");
    String tip = "";
    Entry move = null;
    for (Entry entry : visit.sequence()) {
      // A step's line begins with the move to it, since it says where it is.
      if (entry instanceof Entry.Reposition) {
        move = entry;
        continue;
      }
      if (entry instanceof Entry.Debride step) {
        visit.testedBefore(step).forEach(this::test);
      }
      if (move != null && !(entry instanceof Entry.Debride)) {
        sequence(visit, move, move.startSecond(), tip);
        move = null;
      }
      sequence(visit, entry, (move == null ? entry : move).startSecond(), tip);
      move = null;
      if (entry instanceof Entry.Debride step) {
        tip = step.insert();
      } else if (entry instanceof Entry.ChangeTip change) {
        tip = change.to();
      }
    }
    page.blank();
    label("Tray", String.join(", ", visit.tray()) + sleeves(visit));
    doses(visit);
    labels(
        "Watch",
        visit.watch().stream()
            .map(site -> PlanFileWords.of(practice).watch(site, chart.numbering()))
            .toList());
    labels(
        "Caution",
        MindWords.cautions(visit.cautions(), chart.numbering()).stream()
            .map(Words::capital)
            .toList());
  }

  /** No stroke under a block that has not taken. */
  private void test(InjectionRef block) {
    page.hang(
        " ".repeat(15) + Page.pad("TEST", 9),
        24,
        "the " + Words.injection(block, chart.numbering(), practice) + " block, before going on");
  }

  private static String numb(Visit visit) {
    return visit.injections().isEmpty()
        ? "nothing numbed by injection"
        : Words.numb(visit, visit.numbSide().word().toUpperCase(Locale.ROOT)) + " numb";
  }

  private static String sleeves(Visit visit) {
    return visit.sleeves() == 0 ? "" : "; " + Words.count(visit.sleeves(), "new implant sleeve");
  }

  private void doses(Visit visit) {
    List<String> lines = new ArrayList<>();
    for (Dose dose : visit.doses()) {
      lines.add(
          Words.agent(dose.agent(), practice)
              + ": "
              + Words.number(dose.mg(), 1)
              + " of at most "
              + Words.number(dose.maxMg(), 1)
              + (practice.gel().name().equals(dose.agent()) ? "\u00a0cartridges" : "\u00a0mg")
              + " ("
              + Words.percent(dose.share())
              + ")");
    }
    if (visit.cartridges() > 0) {
      double ml = visit.injections().stream().mapToDouble(GivenInjection::ml).sum();
      lines.add(
          Words.count(visit.cartridges(), "cartridge")
              + " opened, "
              + Words.number(ml, 2)
              + "\u00a0mL given; "
              + (visit.epinephrineMg() > 0
                  ? "epinephrine "
                      + Words.number(visit.epinephrineMg(), 4)
                      + " of at most "
                      + Words.number(
                          PatientRules.of(practice, chart.patient()).epinephrineCapMg(), 3)
                      + "\u00a0mg"
                  : "no epinephrine"));
    }
    labels("Doses", lines);
  }

  /** One label for several lines. */
  private void labels(String label, List<String> lines) {
    for (int i = 0; i < lines.size(); i++) {
      label(i == 0 ? label : "", lines.get(i));
    }
  }

  private void label(String label, String words) {
    page.hang(label, LABEL, words);
  }

  /**
   * One line of the clock, in whole minutes that add up.
   *
   * @param from the second at which it begins
   * @param tip the insert that is on already; a step that uses it does not name it again
   */
  private void sequence(Visit visit, Entry entry, int from, String tip) {
    String clock =
        Page.padLeft(Integer.toString(WholeMinutes.at(from)), 6)
            + Page.padLeft(WholeMinutes.words(from, entry.endSecond()), 7)
            + "  ";
    // A switch over a sealed type has to wait for a later Java.
    String verb;
    String what;
    if (entry instanceof Entry.Debride step) {
      verb = verb(step.pass());
      what =
          Words.area(step.area(), chart)
              + " "
              + step.aspect().word()
              + (step.aspect() == StepAspect.BOTH ? " aspects (" : " (")
              + Words.teeth(step.teeth(), chart.numbering())
              + "), "
              + (step.insert().equals(tip) ? "" : step.insert() + ", ")
              + Words.power(step.power())
              + (step.needsNumb() ? ", " + Words.numb(step, chart, practice, "NUMB") : "");
    } else if (entry instanceof Entry.Inject inject) {
      verb = "Inject";
      what = injected(visit, inject.injection());
    } else if (entry instanceof Entry.ApplyGel gel) {
      verb = "Gel";
      what = Words.place(gel.area(), gel.aspect(), chart.numbering());
    } else if (entry instanceof Entry.Wait) {
      verb = "Wait";
      what = PlanFileWords.awaited(entry, chart.numbering());
    } else if (entry instanceof Entry.ChangeTip change) {
      verb = "Tip";
      what = change.to();
    } else if (entry instanceof Entry.Reposition move) {
      verb = "Move";
      what =
          Words.place(move.area(), move.aspect(), chart.numbering())
              + (move.aspect() == StepAspect.BOTH ? " aspects" : "");
    } else if (entry instanceof Entry.AsWritten written) {
      verb = verb(written.kind());
      what = written.text();
    } else if (entry instanceof Entry.Probe) {
      verb = "Chart";
      what = PlanFileWords.of(practice).entry(entry, chart.numbering());
    } else if (entry instanceof Entry.Look) {
      verb = "Look";
      what = "at the bleeding before going on";
    } else if (entry instanceof Entry.OfFrame part) {
      verb = FrameWords.verb(part.task());
      what = FrameWords.what(part.task());
    } else if (entry instanceof Entry.SetUp) {
      verb = "Set up";
      what = "";
    } else {
      verb = "Close";
      what = "";
    }
    page.hang(clock + Page.pad(verb, 9), 24, what);
  }

  /** What is injected, with its volume, and the agent where it is another than just before. */
  private String injected(Visit visit, InjectionRef injection) {
    String where = Words.injection(injection, chart.numbering(), practice);
    String before = "";
    for (GivenInjection given : visit.injections()) {
      if (given.ref().equals(injection)) {
        String agent =
            given.agent().equals(before) ? "" : " " + Words.agent(given.agent(), practice);
        return where + ", " + Words.number(given.ml(), 2) + "\u00a0mL" + agent;
      }
      before = given.agent();
    }
    return where;
  }

  private static String verb(Entry.Kind kind) {
    return switch (kind) {
      case INJECT -> "Inject";
      case WAIT -> "Wait";
      case REPOSITION -> "Move";
      default -> kind.word();
    };
  }

  private void reasons() {
    List<String> why = ReasonWords.why(course);
    if (!why.isEmpty()) {
      page.heading("Why these visits").items(why);
    }
    OneVisitFewer fewer = course.reasons().oneVisitFewer();
    if (fewer != null) {
      page.heading(ReasonWords.FEWER).items(ReasonWords.needs(fewer, practice));
    }
  }

  private void end() {
    reasons();
    if (!course.wishes().isEmpty()) {
      page.heading("Wishes").items(WishWords.of(course, chart.numbering()));
    }
    List<Caution> more = MindWords.onNoSheet(course);
    if (!more.isEmpty()) {
      page.heading("Cautions for the whole course")
          .items(MindWords.cautions(more, chart.numbering()).stream().map(Words::capital).toList());
    }
    List<String> assumptions = MindWords.assumptions(course);
    if (!assumptions.isEmpty()) {
      boolean some = !allAssumptions && assumptions.size() > MOST_ASSUMPTIONS + FEW_MORE;
      page.heading(some ? "What the numbers rest on most" : "What the numbers rest on");
      page.items(some ? assumptions.subList(0, MOST_ASSUMPTIONS) : assumptions);
      if (some) {
        page.paragraph("--explain lists all " + assumptions.size() + ".");
      }
    }
    if (!course.visits().isEmpty()) {
      page.heading("How good").paragraph(CostText.distance(course));
    }
  }

  private static String verb(Pass pass) {
    return switch (pass) {
      case GROSS -> "Gross";
      case FINE -> "Fine";
      case FINISHING -> "Finish";
      case IMPLANT_CARE -> "Implant";
    };
  }
}
