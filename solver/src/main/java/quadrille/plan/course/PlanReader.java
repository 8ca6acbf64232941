package quadrille.plan.course;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import quadrille.document.Faults;
import quadrille.document.Fields;
import quadrille.document.InvalidDocumentException;
import quadrille.document.JsonDocument;
import quadrille.document.Node;
import quadrille.facts.chart.Alert;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.Aspect;
import quadrille.facts.chart.Feature;
import quadrille.facts.chart.Half;
import quadrille.facts.chart.Numbering;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.chart.Side;
import quadrille.facts.chart.Tooth;
import quadrille.facts.chart.Wish;
import quadrille.facts.practice.FormerNames;
import quadrille.facts.practice.Frame;
import quadrille.facts.practice.Objection;
import quadrille.facts.practice.Pass;
import quadrille.facts.practice.PassesTogether;
import quadrille.facts.practice.Power;
import quadrille.plan.work.StepAspect;

/**
 * Reads the text of a plan file. It holds the file to its form only (docs/plan.schema.json):
 * whether the plan keeps the rules, and whether its sums are true, is for the audit to say.
 *
 * <p>The words that a file shows beside its typed keys are passed over. A file of version 1 has
 * words only: {@link FirstPlanWords} reads what they say, and what says nothing that is known is
 * kept as written.
 */
public final class PlanReader {

  private static final int MOST_VISITS = 100;
  private static final int MOST_ENTRIES = 5000;
  private static final int DAY_MINUTES = 24 * 60;
  private static final int SENTENCE = 2000;
  private static final int NAME = 200;
  private static final int DEEPEST_MM = 20;

  private static final Set<Entry.Kind> WRITTEN_KINDS =
      EnumSet.of(Entry.Kind.INJECT, Entry.Kind.WAIT, Entry.Kind.REPOSITION);

  /** Of an entry, in files of version 2 only. */
  private static final Set<Entry.Kind> SECOND_KINDS =
      EnumSet.of(
          Entry.Kind.APPLY_GEL,
          Entry.Kind.HISTORY,
          Entry.Kind.BLOOD_PRESSURE,
          Entry.Kind.CONSENT,
          Entry.Kind.RINSE,
          Entry.Kind.CHARTING,
          Entry.Kind.PROBE,
          Entry.Kind.LOOK,
          Entry.Kind.INSTRUCT,
          Entry.Kind.LAST_LOOK);

  /** Of an entry that says what a file of version 1 said. */
  private static final List<String> WRITTEN_KEYS =
      List.of("startMinute", "minutes", "do", "what", "to", "asWritten");

  /** Of a visit, in files of version 2 only. */
  private static final List<String> VISIT_KEYS =
      List.of(
          "visit",
          "stopQuestions",
          "numbSide",
          "numbFront",
          "expectedMinutes",
          "bookedMinutes",
          "overrunRisk",
          "areas",
          "areaRefs",
          "tipChanges",
          "injections",
          "rescue",
          "doses",
          "epinephrineMg",
          "cartridges",
          "gelCartridges",
          "sleeves",
          "sequence",
          "tray",
          "watch",
          "watchSites",
          "cautions",
          "cautionFacts",
          "why");

  private static final List<String> SECOND_KEYS =
      List.of(
          "numbFront", "rescue", "areaRefs", "watchSites", "cautionFacts", "stopQuestions", "why");

  private final boolean first;
  private final Numbering numbering;
  private final NoteReader notes = new NoteReader(this);

  private PlanReader(boolean first, Numbering numbering) {
    this.first = first;
    this.numbering = numbering;
  }

  /**
   * Reads a plan file.
   *
   * @param source the file's name, for faults
   * @param text JSON
   * @return the course, and the sums as the file states them
   * @throws InvalidDocumentException with every fault, where there is one
   */
  public static PlanFile read(String source, String text) throws InvalidDocumentException {
    Faults faults = new Faults();
    PlanFile plan = read(JsonDocument.read(source, text, faults));
    faults.check();
    return plan;
  }

  /**
   * Reads a plan that stands within another document. What is wrong goes to that document's faults;
   * without a fault there, the plan may be used.
   */
  public static PlanFile read(Node document) {
    Fields root =
        document.object(
            "schema",
            "case",
            "numbering",
            "visits",
            "gapDays",
            "passesTogether",
            "finishWithin",
            "grossFirst",
            "reevaluateWeeks",
            "totals",
            "cost",
            "oneVisitFewer",
            "wishes",
            "heldBack",
            "assumptions",
            "assumptionFacts",
            "cautions",
            "cautionFacts",
            "changes");
    String schema =
        root.required("schema")
            .word(List.of(PlanWriter.SCHEMA, PlanWriter.FIRST_SCHEMA), word -> word);
    boolean first = schema.equals(PlanWriter.FIRST_SCHEMA);
    Numbering numbering = Numbering.ISO3950;
    if (!first) {
      numbering = root.required("numbering").word(List.of(Numbering.values()), Numbering::word);
    } else if (root.has("numbering")) {
      root.required("numbering").word(List.of(Numbering.ISO3950), Numbering::word);
    }
    return new PlanReader(first, numbering).plan(root);
  }

  private PlanFile plan(Fields root) {
    String caseName = root.required("case").text();
    List<Visit> visits = new ArrayList<>();
    List<PlanFile.VisitSums> sums = new ArrayList<>();
    List<WhyVisit> why = new ArrayList<>();
    for (Node node : root.required("visits").items(0, MOST_VISITS)) {
      visit(node, visits, sums, why);
    }
    // Follows from the rest.
    root.optional("finishWithin")
        .ifPresent(node -> node.items().forEach(one -> one.object("from", "to", "days")));
    List<String> days = first ? List.of("min", "max") : List.of("min", "max", "least", "most");
    Fields gapDays = root.required("gapDays").object(days);
    int[] gap = range(gapDays, "min", "max", 365);
    int[] reevaluate =
        range(root.required("reevaluateWeeks").object("from", "to"), "from", "to", 104);
    PlanFile.Totals totals = totals(root.required("totals"));
    Cost cost = cost(root.required("cost"));
    List<HeldBack> heldBack = new ArrayList<>();
    for (Node node : root.required("heldBack").items()) {
      heldBack.add(heldBack(node));
    }
    List<Node> assumed = noted(root, "assumptions", "assumptionFacts");
    List<Assumption> assumptions =
        assumed.stream().map(notes::assumption).flatMap(Optional::stream).toList();
    Course course =
        new Course(
            caseName,
            visits,
            gap[0],
            gap[1],
            reevaluate[0],
            reevaluate[1],
            cost,
            heldBack,
            assumptions,
            cautions(root),
            assumptions.size() < assumed.size(),
            root.optional("passesTogether").map(PassesTogether::read).orElse(null),
            root.optional("grossFirst").map(Node::truth).orElse(false),
            root.optional("wishes").map(node -> node.items(0, Wish.MOST)).orElse(List.of()).stream()
                .map(node -> ReasonReader.wish(node, numbering))
                .toList(),
            new Reasons(
                why,
                root.optional("oneVisitFewer").map(one -> ReasonReader.fewer(one)).orElse(null)),
            gapDays.optional("least").map(least -> least.whole(0, gap[0])).orElse(gap[0]),
            gapDays.optional("most").map(most -> most.whole(gap[1], 365)).orElse(null));
    return new PlanFile(
        course,
        first ? null : numbering,
        sums,
        totals,
        root.has("changes") ? changes(root.required("changes"), numbering) : null);
  }

  private List<Caution> cautions(Fields fields) {
    return noted(fields, "cautions", "cautionFacts").stream().map(notes::caution).toList();
  }

  /**
   * Facts with words beside them, which are passed over. Where a file has no such facts, the other
   * key holds what there is: texts in version 1, texts and objects in the first files of version 2.
   */
  private List<Node> noted(Fields fields, String words, String facts) {
    if (first || fields.has(words) && !fields.has(facts)) {
      fields.optional(facts).ifPresent(n -> n.fault("key \"" + facts + "\"", "no such key"));
      return fields.required(words).items();
    }
    fields.optional(words).ifPresent(said -> texts(said, SENTENCE));
    return fields.required(facts).items();
  }

  /**
   * Changes against another plan, as a plan file or a course's log holds them.
   *
   * @param numbering how teeth are named there
   */
  public static List<PlanChange> changes(Node node, Numbering numbering) {
    NoteReader notes = new PlanReader(false, numbering).notes;
    return node.items().stream().map(notes::change).toList();
  }

  /**
   * What one visit fewer would need, of an object that may hold more.
   *
   * @param fields gets a fault for each that is found
   */
  public static OneVisitFewer oneVisitFewer(Fields fields) {
    return ReasonReader.fewer(fields);
  }

  private void visit(
      Node node, List<Visit> visits, List<PlanFile.VisitSums> sums, List<WhyVisit> why) {
    Fields fields =
        node.object(
            VISIT_KEYS.stream().filter(key -> !first || !SECOND_KEYS.contains(key)).toList());
    int number = fields.required("visit").whole(1, MOST_VISITS);
    NumbSide numbSide =
        fields.required("numbSide").word(List.of(NumbSide.values()), NumbSide::word);
    double expected = fields.required("expectedMinutes").number(0, DAY_MINUTES);
    int booked = fields.required("bookedMinutes").whole(1, DAY_MINUTES);
    double risk = fields.required("overrunRisk").number(0, 1);
    if (!first) {
      fields.optional("areas").ifPresent(words -> texts(words, NAME));
      fields.optional("watch").ifPresent(words -> texts(words, SENTENCE));
    }
    List<AreaRef> areas =
        all(fields, first ? "areas" : "areaRefs", one -> first ? named(one) : areaRef(one));
    int tipChanges = fields.required("tipChanges").whole(0, MOST_ENTRIES);
    List<GivenInjection> injections = all(fields, "injections", this::injection);
    List<Dose> doses = all(fields, "doses", PlanReader::dose);
    double epinephrine = fields.required("epinephrineMg").number(0, 1000);
    int cartridges = fields.required("cartridges").whole(0, 1000);
    double gelCartridges = fields.required("gelCartridges").number(0, 1000);
    int sleeves = fields.required("sleeves").whole(0, 1000);
    List<Entry> sequence = new ArrayList<>();
    for (Node one : fields.required("sequence").items(0, MOST_ENTRIES)) {
      sequence.add(entry(one, injections, sequence));
    }
    List<WatchSite> watch =
        all(
            fields,
            first ? "watch" : "watchSites",
            one -> first ? new WatchSite.AsWritten(one.text(SENTENCE)) : watch(one));
    visits.add(
        new Visit(
            number,
            numbSide,
            booked,
            risk,
            areas,
            injections,
            doses,
            epinephrine,
            cartridges,
            gelCartridges,
            sleeves,
            sequence,
            texts(fields.required("tray"), 200).stream().map(FormerNames::insert).toList(),
            watch,
            cautions(fields),
            // The first files of version 2 asked nothing.
            fields
                .optional("stopQuestions")
                .map(some -> some.items().stream().map(StopQuestions::read).toList())
                .orElse(List.of())));
    List<Tooth> front =
        fields
            .optional("numbFront")
            .map(teeth -> teeth(teeth, 0, 12))
            .orElseGet(() -> visits.get(visits.size() - 1).numbFront());
    Boolean rescue =
        fields.has("rescue")
            ? fields
                .required("rescue")
                .word(List.of(PlanWriter.ROOM, PlanWriter.NO_ROOM), word -> word)
                .equals(PlanWriter.ROOM)
            : null;
    sums.add(new PlanFile.VisitSums(expected, tipChanges, front, rescue));
    if (fields.has("why")) {
      why.addAll(all(fields, "why", one -> ReasonReader.why(one, number)));
    }
  }

  private static <T> List<T> all(Fields fields, String key, Function<Node, T> read) {
    return fields.required(key).items().stream().map(read).toList();
  }

  GivenInjection injection(Node node) {
    Fields fields = node.object("injection", "side", "quadrant", "tooth", "agent", "ml");
    InjectionRef ref = injectionRef(fields);
    return new GivenInjection(
        ref.injection(),
        ref.quadrant(),
        ref.tooth(),
        fields.required("agent").text(),
        fields.required("ml").number(0.01, 100));
  }

  InjectionRef injectionRef(Fields fields) {
    String name = fields.required("injection").text();
    Node sideNode = fields.required("side");
    Side side = sideNode.word(List.of(Side.values()), Side::word);
    Quadrant quadrant = quadrant(fields);
    if (sideNode.isText() && side != quadrant.side()) {
      sideNode.fault(quadrant.side().word() + ", the side of " + quadrant);
    }
    @Nullable Tooth tooth = null;
    if (fields.has("tooth")) {
      Node toothNode = fields.required("tooth");
      tooth = tooth(toothNode);
      if (tooth != null && tooth.quadrant() != quadrant) {
        toothNode.fault("a tooth of " + quadrant);
      }
    }
    return new InjectionRef(name, quadrant, tooth);
  }

  private static Quadrant quadrant(Fields fields) {
    return fields.required("quadrant").word(List.of(Quadrant.values()), Quadrant::name);
  }

  private static Dose dose(Node node) {
    Fields fields = node.object("agent", "mg", "maxMg", "share");
    return new Dose(
        fields.required("agent").text(),
        fields.required("mg").number(0, 1_000_000),
        fields.required("maxMg").number(0, 1_000_000),
        fields.required("share").number(0, 1000));
  }

  /** What an entry of a kind may hold. */
  private List<String> keys(Entry.Kind kind) {
    List<String> keys = new ArrayList<>(List.of("startMinute", "minutes", "do"));
    keys.addAll(
        switch (kind) {
          case SET_UP,
              HISTORY,
              BLOOD_PRESSURE,
              CONSENT,
              RINSE,
              CHARTING,
              LOOK,
              INSTRUCT,
              LAST_LOOK,
              CLOSE ->
              List.of();
          case CHANGE_TIP -> List.of("to");
          case DEBRIDE ->
              List.of(
                  "area",
                  "aspect",
                  "pass",
                  "insert",
                  "power",
                  "needsNumb",
                  "tooth",
                  "teeth",
                  "test");
          case INJECT, APPLY_GEL, WAIT, PROBE -> List.of("what");
          case REPOSITION -> List.of("to");
        });
    if (!first) {
      keys.addAll(
          switch (kind) {
            case SET_UP,
                HISTORY,
                BLOOD_PRESSURE,
                CONSENT,
                RINSE,
                CHARTING,
                LOOK,
                INSTRUCT,
                LAST_LOOK,
                CLOSE,
                CHANGE_TIP ->
                List.of();
            case DEBRIDE -> List.of("areaRef");
            case INJECT -> List.of("injection", "side", "quadrant", "tooth");
            case APPLY_GEL -> List.of("gel", "areaRef", "aspect");
            case WAIT -> List.of("gel", "numbness");
            case PROBE -> List.of("areas", "aspect");
            case REPOSITION -> List.of("areaRef", "aspect");
          });
    }
    return keys;
  }

  private List<Entry.Kind> kinds() {
    return Stream.of(Entry.Kind.values())
        .filter(kind -> !first || !SECOND_KINDS.contains(kind))
        .toList();
  }

  /**
   * @param given what the visit injects
   * @param before the entries that come before
   */
  private Entry entry(Node node, List<GivenInjection> given, List<Entry> before) {
    Fields some = node.map();
    Node kindNode = some.required("do");
    Entry.Kind kind = kindNode.word(kinds(), Entry.Kind::word);
    boolean known = kindNode.is(kind.word());
    boolean written = !first && WRITTEN_KINDS.contains(kind) && some.has("asWritten");
    Fields fields = known ? node.object(written ? WRITTEN_KEYS : keys(kind)) : some;
    double startMinute = fields.required("startMinute").number(0, DAY_MINUTES);
    double minutes = fields.required("minutes").number(0.01, DAY_MINUTES);
    int start = PlanFile.seconds(startMinute);
    // A hundredth of a minute can round to no second at all; no entry is shorter than one.
    int seconds = Math.max(1, PlanFile.seconds(startMinute + minutes) - start);
    if (!known) {
      return new Entry.SetUp(start, seconds);
    }
    if (!first && kind != Entry.Kind.CHANGE_TIP) {
      passOver(fields, SENTENCE, "what", "to");
      passOver(fields, NAME, "area");
    }
    if (written) {
      return new Entry.AsWritten(start, seconds, kind, fields.required("asWritten").text(SENTENCE));
    }
    return switch (kind) {
      case SET_UP -> new Entry.SetUp(start, seconds);
      case CHANGE_TIP ->
          new Entry.ChangeTip(
              start, seconds, FormerNames.insert(fields.required("to").text(SENTENCE)));
      case HISTORY -> new Entry.OfFrame(start, seconds, Frame.Task.HISTORY);
      case BLOOD_PRESSURE -> new Entry.OfFrame(start, seconds, Frame.Task.BLOOD_PRESSURE);
      case CONSENT -> new Entry.OfFrame(start, seconds, Frame.Task.CONSENT);
      case RINSE -> new Entry.OfFrame(start, seconds, Frame.Task.RINSE);
      case CHARTING -> new Entry.OfFrame(start, seconds, Frame.Task.CHARTING);
      case PROBE ->
          new Entry.Probe(
              start,
              seconds,
              fields.required("areas").items().stream().map(this::areaRef).toList(),
              aspect(fields));
      case LOOK -> new Entry.Look(start, seconds);
      case INSTRUCT -> new Entry.OfFrame(start, seconds, Frame.Task.INSTRUCTION);
      case LAST_LOOK -> new Entry.OfFrame(start, seconds, Frame.Task.LAST_LOOK);
      case CLOSE -> new Entry.Close(start, seconds);
      case DEBRIDE -> debride(fields, start, seconds);
      case INJECT ->
          first
              ? FirstPlanWords.inject(start, seconds, words(fields, "what"), given)
              : new Entry.Inject(start, seconds, injectionRef(fields));
      case APPLY_GEL ->
          new Entry.ApplyGel(
              start,
              seconds,
              fields.required("gel").text(),
              areaRef(fields.required("areaRef")),
              aspect(fields));
      case WAIT ->
          first
              ? FirstPlanWords.waiting(start, seconds, words(fields, "what"), before)
              : new Entry.Wait(start, seconds, awaited(fields));
      case REPOSITION ->
          first
              ? FirstPlanWords.move(start, seconds, words(fields, "to"))
              : new Entry.Reposition(
                  start, seconds, areaRef(fields.required("areaRef")), aspect(fields));
    };
  }

  /** Words beside typed keys: their form is held to, what they say is not asked. */
  private static void passOver(Fields fields, int most, String... keys) {
    for (String key : keys) {
      fields.optional(key).ifPresent(node -> node.text(most));
    }
  }

  private static String words(Fields fields, String key) {
    return fields.required(key).text(SENTENCE);
  }

  private static Awaited awaited(Fields fields) {
    if (fields.has("gel")) {
      fields.optional("numbness").ifPresent(n -> n.fault("key \"numbness\"", "\"gel\" alone"));
      return new Awaited.Gel(fields.required("gel").text());
    }
    Node node = fields.required("numbness");
    List<Quadrant> quadrants = node.words(List.of(Quadrant.values()), Quadrant::name);
    if (node.isArray() && node.items().isEmpty()) {
      node.fault("at least one quadrant");
    }
    return new Awaited.Numbness(quadrants);
  }

  private static StepAspect aspect(Fields fields) {
    return fields.required("aspect").word(List.of(StepAspect.values()), StepAspect::word);
  }

  private Entry debride(Fields fields, int start, int seconds) {
    // Words: which blocks these are follows from the visit's cautions.
    fields.optional("test").ifPresent(node -> node.items(1, 8).forEach(one -> one.text(SENTENCE)));
    Pass pass = fields.required("pass").word(List.of(Pass.values()), Pass::word);
    List<Tooth> teeth = teeth(fields.required("teeth"));
    if (pass == Pass.IMPLANT_CARE) {
      Node one = fields.required("tooth");
      @Nullable Tooth tooth = tooth(one);
      if (tooth != null && !teeth.equals(List.of(tooth))) {
        one.fault("the one tooth in \"teeth\"");
      }
    } else {
      fields
          .optional("tooth")
          .ifPresent(n -> n.fault("key \"tooth\"", "\"tooth\" only where pass is implant-care"));
    }
    return new Entry.Debride(
        start,
        seconds,
        area(fields),
        aspect(fields),
        pass,
        FormerNames.insert(fields.required("insert").text()),
        fields.required("power").word(List.of(Power.values()), Power::word),
        fields.required("needsNumb").truth(),
        teeth);
  }

  /** The area of a step or of work held back. */
  private AreaRef area(Fields fields) {
    return first ? named(fields.required("area")) : areaRef(fields.required("areaRef"));
  }

  private static AreaRef named(Node node) {
    String name = node.text();
    Optional<AreaRef> area = AreaRef.named(name, Numbering.ISO3950);
    if (node.isText() && area.isEmpty()) {
      node.fault(
          "half a quadrant, such as \"UR posterior\", or a part, such as \"UR posterior 18-17\"");
    }
    return area.orElse(AreaRef.whole(Quadrant.UR, Half.POSTERIOR));
  }

  AreaRef areaRef(Node node) {
    Fields fields = node.object("quadrant", "half", "from", "to");
    Quadrant quadrant = quadrant(fields);
    Half half = fields.required("half").word(List.of(Half.values()), Half::word);
    AreaRef whole = AreaRef.whole(quadrant, half);
    if (!fields.has("from") && !fields.has("to")) {
      return whole;
    }
    @Nullable Tooth from = tooth(fields.required("from"));
    @Nullable Tooth to = tooth(fields.required("to"));
    if (from == null || to == null) {
      return whole;
    }
    Optional<AreaRef> part = AreaRef.of(quadrant, half, from, to);
    if (part.isEmpty()) {
      node.fault(
          "teeth of " + whole + ", \"from\" the one that is farther from the midline or the same");
    }
    return part.orElse(whole);
  }

  private WatchSite watch(Node node) {
    if (node.map().has("asWritten")) {
      return new WatchSite.AsWritten(node.object("asWritten").required("asWritten").text(SENTENCE));
    }
    Fields fields = node.object("tooth", "implant", "sites", "furcation", "mobility", "features");
    @Nullable Tooth tooth = tooth(fields.required("tooth"));
    List<WatchSite.Probed> sites = new ArrayList<>();
    for (Node one : fields.required("sites").items(0, 6)) {
      Fields site = one.object("aspect", "site", "depthMm");
      sites.add(
          new WatchSite.Probed(
              site.required("aspect").word(List.of(Aspect.values()), Aspect::word),
              PlanWriter.SITES.indexOf(site.required("site").word(PlanWriter.SITES, word -> word)),
              site.optional("depthMm").map(n -> n.whole(0, DEEPEST_MM)).orElse(null)));
    }
    return new WatchSite.OfTooth(
        tooth == null ? Tooth.values().get(0) : tooth,
        fields.required("implant").truth(),
        sites,
        fields.required("furcation").whole(0, 3),
        fields.required("mobility").whole(0, 3),
        fields.required("features").words(List.of(Feature.values()), Feature::word));
  }

  private static PlanFile.Totals totals(Node node) {
    Fields fields =
        node.object(
            "visits", "chairMinutes", "bookedMinutes", "tipChanges", "injections", "cartridges");
    return new PlanFile.Totals(
        fields.required("visits").whole(0, MOST_VISITS),
        fields.required("chairMinutes").number(0, MOST_VISITS * DAY_MINUTES),
        fields.required("bookedMinutes").whole(0, MOST_VISITS * DAY_MINUTES),
        fields.required("tipChanges").whole(0, MOST_VISITS * MOST_ENTRIES),
        fields.required("injections").whole(0, 10_000),
        fields.required("cartridges").whole(0, 100_000));
  }

  private static Cost cost(Node node) {
    Fields fields = node.object("seconds", "lowerBoundSeconds", "provenBest", "terms");
    int seconds = fields.required("seconds").whole(0, Integer.MAX_VALUE);
    int bound = fields.required("lowerBoundSeconds").whole(0, Integer.MAX_VALUE);
    Fields terms =
        fields
            .required("terms")
            .object(Arrays.stream(CourseTerm.values()).map(CourseTerm::key).toList());
    Map<CourseTerm, Long> read = new EnumMap<>(CourseTerm.class);
    for (CourseTerm term : CourseTerm.values()) {
      terms
          .optional(term.key())
          .ifPresent(one -> read.put(term, (long) one.whole(0, Integer.MAX_VALUE)));
    }
    return fields
        .optional("provenBest")
        .map(said -> new Cost(seconds, bound, said.truth(), read))
        .orElseGet(() -> new Cost(seconds, bound, read));
  }

  private HeldBack heldBack(Node node) {
    Fields fields =
        first
            ? node.object("area", "pass", "aspect", "teeth", "reason")
            : node.object("area", "areaRef", "pass", "aspect", "teeth", "reason", "because");
    if (!first) {
      passOver(fields, NAME, "area");
      passOver(fields, SENTENCE, "reason");
    }
    return new HeldBack(
        area(fields),
        fields.required("pass").word(List.of(Pass.values()), Pass::word),
        aspect(fields),
        teeth(fields.required("teeth")),
        first
            ? new HeldBack.AsWritten(fields.required("reason").text(SENTENCE))
            : reason(fields.required("because")));
  }

  private static HeldBack.Reason reason(Node node) {
    Node why = node.map().required("why");
    return switch (why.word(List.of(PlanWriter.Because.values()), PlanWriter.Because::word)) {
      case NO_HISTORY -> {
        node.object("why");
        yield new HeldBack.NoHistory();
      }
      case NO_WEIGHT -> {
        node.object("why");
        yield new HeldBack.NoWeight();
      }
      case NO_INJECTION_WISHED -> {
        node.object("why");
        yield new HeldBack.NoInjectionWished();
      }
      case AWAITS_CHART -> {
        node.object("why");
        yield new HeldBack.AwaitsChart();
      }
      case NO_AGENT -> {
        List<HeldBack.Refused> agents = new ArrayList<>();
        for (Node one : node.object("why", "agents").required("agents").items()) {
          agents.add(refused(one.object("agent", "refusals")));
        }
        yield new HeldBack.NoAgent(agents);
      }
      case NO_AGENT_SERVES -> {
        Fields fields = node.object("why", "agents", "for");
        yield new HeldBack.NoAgentServes(
            fields.required("agents").items().stream().map(Node::text).toList(),
            fields.required("for").word(List.of("lasting", "dose"), word -> word).equals("dose"));
      }
      case FOLLOWS -> new HeldBack.Follows(waiting(node));
      case WHOLE_AREA -> new HeldBack.WholeArea(waiting(node));
      case AS_WRITTEN ->
          new HeldBack.AsWritten(node.object("why", "text").required("text").text(SENTENCE));
    };
  }

  private static HeldBack.Reason waiting(Node node) {
    Node waiting = node.object("why", "waiting").required("waiting");
    HeldBack.Reason reason = reason(waiting);
    if (reason instanceof HeldBack.Follows || reason instanceof HeldBack.WholeArea) {
      waiting.fault("what the work that waits is waiting for");
    }
    return reason;
  }

  private static HeldBack.Refused refused(Fields fields) {
    List<Objection> why = new ArrayList<>();
    for (Node one : fields.required("refusals").items()) {
      why.add(one.map().has("fromAgeYears") ? tooYoung(one) : forbidden(one));
    }
    return new HeldBack.Refused(fields.required("agent").text(), why);
  }

  private static Objection forbidden(Node node) {
    Fields fields = node.object("alert", "forbids");
    return new Objection.Forbidden(
        fields.required("alert").word(List.of(Alert.values()), Alert::word),
        fields.required("forbids").text());
  }

  private static Objection tooYoung(Node node) {
    Fields fields = node.object("fromAgeYears", "ageYears");
    return new Objection.TooYoung(
        fields.required("fromAgeYears").whole(0, 120),
        fields.optional("ageYears").map(age -> age.whole(0, 120)).orElse(null));
  }

  private static int[] range(Fields fields, String low, String high, int most) {
    int from = fields.required(low).whole(0, most);
    Node to = fields.required(high);
    int until = to.whole(0, most);
    if (to.isNumber() && until < from) {
      to.fault("at least \"" + low + "\", " + from);
    }
    return new int[] {from, until};
  }

  private List<Tooth> teeth(Node node) {
    return teeth(node, 1, 16);
  }

  List<Tooth> teeth(Node node, int least, int most) {
    List<Tooth> teeth = new ArrayList<>();
    for (Node one : node.items(least, most)) {
      @Nullable Tooth tooth = tooth(one);
      if (tooth != null && teeth.contains(tooth)) {
        one.fault(one.quoted() + " a second time", "each tooth once");
      } else if (tooth != null) {
        teeth.add(tooth);
      }
    }
    return teeth;
  }

  /** The tooth, or null where a fault says that it is none. */
  @Nullable Tooth tooth(Node node) {
    @Nullable Tooth tooth = node.isText() ? numbering.tooth(node.text()).orElse(null) : null;
    if (tooth == null) {
      node.fault(
          numbering == Numbering.ISO3950
              ? "an ISO 3950 code in quotes, \"11\" to \"48\""
              : "a tooth's number in quotes, \"1\" to \"32\"");
    }
    return tooth;
  }

  private static List<String> texts(Node node, int most) {
    return node.items().stream().map(one -> one.text(most)).toList();
  }
}
