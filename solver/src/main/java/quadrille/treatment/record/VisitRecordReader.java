package quadrille.treatment.record;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import quadrille.document.FaultWords;
import quadrille.document.Faults;
import quadrille.document.Fields;
import quadrille.document.InvalidDocumentException;
import quadrille.document.JsonDocument;
import quadrille.document.Node;
import quadrille.facts.chart.Numbering;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.chart.Tooth;
import quadrille.facts.chart.ToothChart;
import quadrille.facts.practice.Injection;
import quadrille.facts.practice.Pass;
import quadrille.facts.practice.Practice;
import quadrille.plan.course.Course;
import quadrille.plan.course.Entry;
import quadrille.plan.course.Visit;
import quadrille.plan.work.StepAspect;

/**
 * Reads what a person says of a visit, and fills in from the plan what was not said: steps not
 * named were done, injections were given as planned. Everything is held against the plan, the chart
 * and the practice, and every fault comes to light at once. What a clock or a syringe alone can
 * tell is never filled in: the minutes must be said. Teeth, and areas that were cut between two
 * teeth, are named as the chart names them; a document says so by its {@code numbering}, which it
 * may leave out where the chart has ISO 3950 codes. A correction changes what it names; what it
 * does not name stays as it was recorded, and of its steps those that are not named.
 *
 * <pre>{@code
 * { "schema": "quadrille/visit/1", "numbering": "iso3950", "visit": 1, "date": "2026-03-02",
 *   "clinician": "C2", "minutes": 55,
 *   "steps": [ { "area": "UR posterior", "pass": "fine", "share": 0.5 } ],
 *   "found": [ { "what": "failed-injection", "injection": "inferior alveolar", "quadrant": "LR" } ] }
 * }</pre>
 */
public final class VisitRecordReader {

  /** What the document's {@code schema} must say. */
  public static final String SCHEMA = "quadrille/visit/1";

  /** What it may hold. */
  public static final List<String> KEYS =
      List.of(
          "schema",
          "numbering",
          "visit",
          "date",
          "clinician",
          "minutes",
          "parts",
          "bookedMinutes",
          "interrupted",
          "steps",
          "injections",
          "gelCartridges",
          "found",
          "note");

  private static final double LONGEST_MINUTES = 600;

  private final Faults faults;
  private final CourseLog log;
  private final CourseState state;
  private final Numbering numbering;
  private final VisitDoneJson json;
  private final Practice practice;
  private final int corrects;

  private VisitRecordReader(Faults faults, CourseLog log, int corrects) {
    this.faults = faults;
    this.log = log;
    this.state = CourseState.of(log);
    this.numbering = log.numbering();
    this.json = new VisitDoneJson(numbering);
    this.practice =
        corrects > 0 && corrects <= log.entries().size()
            ? log.practiceAt(log.origin(corrects))
            : log.practice();
    this.corrects = corrects;
  }

  /**
   * Reads a document.
   *
   * @param source its name, for faults
   * @param corrects number of the entry that it corrects; 0 for a new record
   * @throws InvalidDocumentException with every fault
   */
  public static VisitDone read(String source, String text, CourseLog log, int corrects)
      throws InvalidDocumentException {
    Faults faults = new Faults();
    Node root = JsonDocument.read(source, text, faults);
    if (root.isObject()) {
      Fields top = root.map();
      top.required("schema").word(List.of(SCHEMA), word -> word);
      if (log.numbering() != Numbering.ISO3950 && !top.has("numbering")) {
        // Nearly every code is a tooth of either numbering, so that nobody could tell a mistake.
        top.required("numbering").word(List.of(log.numbering()), Numbering::word);
      }
    }
    return read(root, faults, log, corrects);
  }

  /**
   * Reads a tree, whose values may stand in a document or on a command line.
   *
   * @param faults the tree's
   * @param corrects number of the entry that it corrects; 0 for a new record
   * @throws InvalidDocumentException with every fault
   */
  public static VisitDone read(Node root, Faults faults, CourseLog log, int corrects)
      throws InvalidDocumentException {
    return new VisitRecordReader(faults, log, corrects).visit(root);
  }

  private VisitDone visit(Node root) throws InvalidDocumentException {
    Fields fields = root.object(KEYS);
    fields.optional("numbering").ifPresent(said -> said.word(List.of(numbering), Numbering::word));
    @Nullable VisitDone old = corrected();
    Plan plan =
        plan(old == null ? fields.required("visit") : fields.optional("visit").orElse(null));
    List<StepDone> steps = steps(plan, fields.optional("steps"), old);
    List<Given> injections =
        fields
            .optional("injections")
            .map(this::injections)
            .orElseGet(
                () ->
                    old != null
                        ? old.injections()
                        : plan.visit() == null ? List.of() : planned(plan.visit()));
    Optional<Node> minutes = fields.optional("minutes");
    Optional<Node> parts = fields.optional("parts");
    if (old == null && minutes.isEmpty() && parts.isEmpty() && root.isObject()) {
      fields.required("minutes").number(1, LONGEST_MINUTES);
    }
    VisitDone done =
        new VisitDone(
            plan.number(),
            said(fields, "date", Node::date, old == null ? null : old.date()),
            said(fields, "clinician", Node::text, old == null ? null : old.clinician()),
            steps,
            injections,
            fields
                .optional("gelCartridges")
                .map(VisitDoneJson::gel)
                .orElseGet(
                    () ->
                        old != null
                            ? old.gelCartridges()
                            : plan.visit() == null ? new TreeMap<>() : gel(plan.visit())),
            minutes
                .map(node -> node.number(1, LONGEST_MINUTES))
                .orElse(old == null ? null : old.minutes()),
            parts.map(node -> parts(node, plan)).orElse(old == null ? List.of() : old.parts()),
            fields
                .optional("bookedMinutes")
                .map(node -> node.whole(1, VisitDoneJson.DAY_MINUTES))
                .orElseGet(() -> old != null ? old.bookedMinutes() : booked(plan)),
            fields
                .optional("interrupted")
                .map(Node::truth)
                .orElse(old != null && old.interrupted()),
            fields
                .optional("found")
                .map(node -> findings(node, injections))
                .orElse(old == null ? List.of() : old.findings()),
            fields
                .optional("note")
                .map(node -> node.text(VisitDoneJson.NOTE))
                .orElse(old == null ? "" : old.note()));
    faults.check();
    return done;
  }

  /**
   * The plan that a record is held against.
   *
   * @param visit null where a fault says that there is none
   */
  private record Plan(int number, Course course, @Nullable Visit visit) {}

  private Plan plan(@Nullable Node number) {
    int origin = log.origin(corrects);
    for (CourseLog.Recorded one : log.recorded()) {
      if (corrects > 0 && one.entry() == origin) {
        int visit = one.done().visit();
        if (number != null) {
          number.whole(visit, visit);
        }
        return new Plan(visit, courseAt(origin), one.planned());
      }
    }
    return open(Objects.requireNonNull(number));
  }

  /**
   * The record that is corrected, as it counts so far, which holds where nothing else is said; null
   * where none is, or where its teeth are in doubt, since nobody shall confirm them unawares.
   */
  private @Nullable VisitDone corrected() {
    int origin = log.origin(corrects);
    if (TeethInDoubt.of(log).stream().anyMatch(one -> log.origin(one.entry()) == origin)) {
      return null;
    }
    return log.recorded().stream()
        .filter(one -> corrects > 0 && one.entry() == origin)
        .map(CourseLog.Recorded::done)
        .findFirst()
        .orElse(null);
  }

  /** What is said, or of a correction what was said before. */
  private static <T> T said(Fields fields, String key, Function<Node, T> read, @Nullable T before) {
    return before != null && !fields.has(key) ? before : read.apply(fields.required(key));
  }

  private Plan open(Node number) {
    TreeSet<Integer> open = new TreeSet<>();
    state.toCome().forEach(visit -> open.add(visit.number()));
    int said = number.whole(1, VisitDoneJson.MOST_VISIT);
    Visit found =
        state.toCome().stream().filter(visit -> visit.number() == said).findFirst().orElse(null);
    if (number.isNumber() && found == null) {
      CourseLog.Recorded old =
          log.recorded().stream()
              .filter(one -> one.done().visit() == said)
              .findFirst()
              .orElse(null);
      if (old != null) {
        number.fault(
            "visit " + said + ", which entry " + old.entry() + " records",
            "a correction of entry " + old.entry());
      } else {
        number.fault(
            open.isEmpty()
                ? "nothing, as no visit is to come"
                : "a visit to come: "
                    + FaultWords.either(open.stream().map(String::valueOf).toList()));
      }
    }
    return new Plan(said, state.course(), found);
  }

  /** The plan that held when an entry was written. */
  private Course courseAt(int entry) {
    Course course = log.planned().course();
    for (LogEntry one : log.entries().subList(0, entry)) {
      if (one.event() instanceof Event.Replanned replanned) {
        course = replanned.course();
      }
    }
    return course;
  }

  private int booked(Plan plan) {
    Event.@Nullable Appointment appointment = state.booked().get(plan.number());
    if (appointment != null) {
      return appointment.minutes();
    }
    return plan.visit() == null ? 1 : plan.visit().bookedMinutes();
  }

  // ---- steps

  /** The visit's own steps, done unless something else is said, then those done early. */
  private List<StepDone> steps(Plan plan, Optional<Node> said, @Nullable VisitDone old) {
    Map<Entry.Debride, Double> shares = new LinkedHashMap<>();
    List<StepDone> unplanned = new ArrayList<>();
    if (old != null) {
      for (StepDone step : old.steps()) {
        plan.course().visits().stream()
            .filter(visit -> visit.number() >= plan.number())
            .flatMap(visit -> visit.steps().stream())
            .filter(one -> StepDone.of(one, step.share()).equals(step))
            .findFirst()
            .ifPresentOrElse(one -> shares.put(one, step.share()), () -> unplanned.add(step));
      }
    } else if (plan.visit() != null) {
      plan.visit().steps().forEach(step -> shares.put(step, 1.0));
    }
    Map<Entry.Debride, Node> named = new LinkedHashMap<>();
    for (Node node : said.map(Node::items).orElse(List.of())) {
      Fields fields = node.object("area", "pass", "aspect", "teeth", "share");
      double share = fields.required("share").number(0, 1);
      for (Entry.Debride step : selected(plan, fields)) {
        @Nullable Node before = named.putIfAbsent(step, node);
        if (before != null) {
          node.fault("the " + words(step) + " a second time", "each step once");
        }
        if (share > 0 || shares.containsKey(step)) {
          shares.put(step, share);
        }
      }
    }
    List<StepDone> steps = new ArrayList<>(unplanned);
    shares.forEach((step, share) -> steps.add(StepDone.of(step, share)));
    return steps;
  }

  private List<Entry.Debride> selected(Plan plan, Fields fields) {
    Node areaNode = fields.required("area");
    Node passNode = fields.required("pass");
    Pass pass = passNode.word(List.of(Pass.values()), Pass::word);
    @Nullable StepAspect aspect =
        fields
            .optional("aspect")
            .map(node -> node.word(List.of(StepAspect.values()), StepAspect::word))
            .orElse(null);
    List<Tooth> teeth = new ArrayList<>();
    for (Node node : fields.optional("teeth").map(Node::items).orElse(List.of())) {
      @Nullable Tooth tooth = json.tooth(node);
      if (tooth != null) {
        teeth.add(tooth);
      }
    }
    List<Entry.Debride> open =
        state.toCome().isEmpty() || corrects > 0
            ? plan.course().visits().stream()
                .filter(visit -> visit.number() >= plan.number())
                .flatMap(visit -> visit.steps().stream())
                .toList()
            : state.toCome().stream().flatMap(visit -> visit.steps().stream()).toList();
    List<Entry.Debride> inArea =
        open.stream().filter(step -> areaNode.is(step.area().name(numbering))).toList();
    if (areaNode.isText() && inArea.isEmpty()) {
      List<String> areas =
          open.stream().map(step -> step.area().name(numbering)).distinct().sorted().toList();
      areaNode.fault(FaultWords.either(areas, areaNode.text()));
      return List.of();
    }
    areaNode.text();
    List<Entry.Debride> inPass = inArea.stream().filter(step -> step.pass() == pass).toList();
    if (passNode.is(pass.word()) && inPass.isEmpty() && !inArea.isEmpty()) {
      passNode.fault(
          FaultWords.either(
              inArea.stream().map(step -> step.pass().word()).distinct().toList(), pass.word()));
    }
    List<Entry.Debride> found =
        inPass.stream()
            .filter(step -> aspect == null || step.aspect() == aspect)
            .filter(step -> teeth.isEmpty() || step.teeth().stream().anyMatch(teeth::contains))
            .toList();
    if (found.isEmpty() && !inPass.isEmpty()) {
      fields
          .node()
          .fault(
              "no step of the "
                  + pass.word()
                  + " pass of "
                  + areaNode.text()
                  + " with this aspect or teeth",
              FaultWords.either(inPass.stream().map(this::words).distinct().toList()));
    }
    return found;
  }

  private String words(Entry.Debride step) {
    return step.area().name(numbering)
        + " "
        + step.pass().word()
        + " "
        + step.aspect().word()
        + " ("
        + String.join(" ", step.teeth().stream().map(numbering::name).toList())
        + ")";
  }

  // ---- what was given

  private static List<Given> planned(Visit visit) {
    return visit.injections().stream().map(Given::of).toList();
  }

  private List<Given> injections(Node node) {
    List<Given> given = new ArrayList<>();
    for (Node one : node.items()) {
      Fields fields = one.object("injection", "quadrant", "tooth", "agent", "ml");
      Node name = fields.required("injection");
      @Nullable Injection kind = known(name, practice.injections());
      @Nullable Tooth tooth = fields.optional("tooth").map(json::tooth).orElse(null);
      @Nullable Quadrant quadrant = quadrant(fields, tooth);
      if (kind != null && quadrant != null) {
        place(one, kind, quadrant, tooth);
      }
      known(fields.required("agent"), practice.agents());
      double ml = fields.required("ml").number(0.01, VisitDoneJson.MOST_ML);
      given.add(
          new Given(
              name.isText() ? name.text() : "?",
              quadrant == null ? Quadrant.UR : quadrant,
              tooth,
              fields.required("agent").isText() ? fields.required("agent").text() : "?",
              ml));
    }
    return given;
  }

  private @Nullable Quadrant quadrant(Fields fields, @Nullable Tooth tooth) {
    if (tooth != null && !fields.has("quadrant")) {
      return tooth.quadrant();
    }
    Node node = fields.required("quadrant");
    Quadrant quadrant = node.word(List.of(Quadrant.values()), Quadrant::name);
    if (tooth != null && node.isText() && tooth.quadrant() != quadrant) {
      node.fault(tooth.quadrant() + ", the quadrant of tooth " + numbering.name(tooth));
    }
    return node.is(quadrant.name()) ? quadrant : null;
  }

  private static void place(Node node, Injection kind, Quadrant quadrant, @Nullable Tooth tooth) {
    if (kind.jaw() != quadrant.jaw()) {
      node.fault(
          kind.name() + " in " + quadrant,
          "a quadrant of the " + kind.jaw().name().toLowerCase(Locale.ROOT) + " jaw");
    } else if (kind.perTooth() != (tooth != null)) {
      node.fault(
          kind.name() + (tooth == null ? " without a tooth" : " with a tooth"),
          kind.perTooth() ? "the tooth that it was given at" : "no tooth");
    }
  }

  private static <T> @Nullable T known(Node node, Map<String, T> known) {
    if (!node.isText()) {
      node.text();
      return null;
    }
    @Nullable T found = known.get(node.text());
    if (found == null) {
      node.fault(FaultWords.either(List.copyOf(known.keySet()), node.text()));
    }
    return found;
  }

  /** The gel that a visit was to use, by quadrant. */
  private SortedMap<Quadrant, Double> gel(Visit visit) {
    SortedMap<Quadrant, Double> gel = new TreeMap<>();
    for (Entry.ApplyGel entry : visit.gelEntries()) {
      gel.merge(
          entry.area().quadrant(),
          entry.aspect().aspects().size() * practice.gel().cartridgesAspect().value(),
          Double::sum);
    }
    return gel;
  }

  // ---- minutes and findings

  private List<PartMinutes> parts(Node node, Plan plan) {
    List<PartMinutes> parts = new ArrayList<>();
    for (Node one : node.items()) {
      Fields fields = one.object("area", "pass", "minutes");
      List<Entry.Debride> steps = selectedForTime(plan, fields);
      double minutes = fields.required("minutes").number(0, LONGEST_MINUTES);
      if (!steps.isEmpty()) {
        PartMinutes part = new PartMinutes(steps.get(0).area(), steps.get(0).pass(), minutes);
        if (parts.stream().anyMatch(p -> p.area().equals(part.area()) && p.pass() == part.pass())) {
          one.fault(
              "the "
                  + part.pass().word()
                  + " pass of "
                  + part.area().name(numbering)
                  + " a second time",
              "each once");
        }
        parts.add(part);
      }
    }
    return parts;
  }

  private List<Entry.Debride> selectedForTime(Plan plan, Fields fields) {
    Map<String, Node> some = new LinkedHashMap<>();
    for (String key : List.of("area", "pass")) {
      some.put(key, fields.required(key));
    }
    return selected(plan, Node.ofMembers(faults, fields.node().place(), some).map());
  }

  private List<Observation> findings(Node node, List<Given> given) {
    List<Observation> findings = new ArrayList<>();
    for (Node one : node.items()) {
      List<Observation> read = new ArrayList<>();
      json.finding(one, read);
      for (Observation finding : read) {
        check(one, finding, given);
        findings.add(finding);
      }
    }
    return findings;
  }

  private void check(Node node, Observation finding, List<Given> given) {
    if (finding instanceof Observation.Depth depth) {
      charted(node, depth.tooth(), false);
    } else if (finding instanceof Observation.Pus pus) {
      charted(node, pus.tooth(), false);
    } else if (finding instanceof Observation.BrokenSleeve broken) {
      charted(node, broken.tooth(), true);
    } else if (finding instanceof Observation.FailedInjection failed) {
      boolean there =
          given.stream()
              .anyMatch(
                  one ->
                      one.injection().equals(failed.injection())
                          && one.quadrant() == failed.quadrant()
                          && Objects.equals(one.tooth(), failed.tooth()));
      if (!there) {
        node.fault(
            "a failed " + failed.ref().name(numbering) + ", which was not given",
            given.isEmpty()
                ? "nothing, as no injection was given"
                : FaultWords.either(
                    given.stream().map(one -> one.ref().name(numbering)).distinct().toList()));
      }
    }
  }

  private void charted(Node node, Tooth tooth, boolean implant) {
    Optional<ToothChart> charted = state.chart().tooth(tooth).filter(ToothChart::worked);
    if (charted.isEmpty() || implant && !charted.get().implant()) {
      node.fault(
          "tooth " + numbering.name(tooth),
          implant ? "an implant of the chart" : "a natural tooth or an implant of the chart");
    }
  }

  /** A finding as in a visit's document; null where a fault says that it is none. */
  public static @Nullable Observation finding(Node node, Numbering numbering) {
    List<Observation> one = new ArrayList<>();
    new VisitDoneJson(numbering).finding(node, one);
    return one.isEmpty() ? null : one.get(0);
  }

  /** A finding as a visit's document has it. */
  public static Map<String, Object> fields(Observation finding, Numbering numbering) {
    return new VisitDoneJson(numbering).finding(finding);
  }

  /** Where a depth stands, as written: distal, middle or mesial. */
  public static List<String> sites() {
    return VisitDoneJson.SITES;
  }
}
