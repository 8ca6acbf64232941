package quadrille.plan.course;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import quadrille.document.Faults;
import quadrille.document.Fields;
import quadrille.document.InvalidDocumentException;
import quadrille.document.JsonDocument;
import quadrille.document.Node;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.chart.Side;
import quadrille.facts.chart.Tooth;
import quadrille.facts.practice.Pass;
import quadrille.facts.practice.Power;
import quadrille.plan.work.StepAspect;

/**
 * Reads the text of a plan file. It holds the file to its form only (docs/plan.schema.json):
 * whether the plan keeps the rules, and whether its sums are true, is for the audit to say.
 */
public final class PlanReader {

  private static final int MOST_VISITS = 100;
  private static final int MOST_ENTRIES = 5000;
  private static final int DAY_MINUTES = 24 * 60;
  private static final int SENTENCE = 2000;
  private static final Pattern ISO_CODE = Pattern.compile("[1-4][1-8]");

  private enum Do {
    SETUP("setup"),
    INJECT("inject"),
    WAIT("wait"),
    CHANGE_TIP("change-tip"),
    REPOSITION("reposition"),
    DEBRIDE("debride"),
    CLOSE("close");

    private final String word;

    Do(String word) {
      this.word = word;
    }

    String word() {
      return word;
    }

    /** What an entry of this kind may hold. */
    List<String> keys() {
      List<String> keys = new ArrayList<>(List.of("startMinute", "minutes", "do"));
      keys.addAll(
          switch (this) {
            case SETUP, CLOSE -> List.of();
            case INJECT, WAIT -> List.of("what");
            case CHANGE_TIP, REPOSITION -> List.of("to");
            case DEBRIDE ->
                List.of("area", "aspect", "pass", "insert", "power", "needsNumb", "tooth", "teeth");
          });
      return keys;
    }
  }

  private PlanReader() {}

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
            "reevaluateWeeks",
            "totals",
            "cost",
            "heldBack",
            "assumptions",
            "cautions",
            "changes");
    root.required("schema").word(List.of(PlanWriter.SCHEMA), word -> word);
    root.optional("numbering").ifPresent(n -> n.word(List.of(PlanWriter.NUMBERING), word -> word));
    String caseName = root.required("case").text();
    List<Visit> visits = new ArrayList<>();
    List<PlanFile.VisitSums> sums = new ArrayList<>();
    for (Node node : root.required("visits").items(0, MOST_VISITS)) {
      visit(node, visits, sums);
    }
    int[] gap = range(root.required("gapDays"), "min", "max", 365);
    int[] reevaluate = range(root.required("reevaluateWeeks"), "from", "to", 104);
    PlanFile.Totals totals = totals(root.required("totals"));
    Cost cost = cost(root.required("cost"));
    List<HeldBack> heldBack = new ArrayList<>();
    for (Node node : root.required("heldBack").items()) {
      heldBack.add(heldBack(node));
    }
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
            texts(root.required("assumptions"), SENTENCE),
            texts(root.required("cautions"), SENTENCE));
    return new PlanFile(
        course, sums, totals, root.has("changes") ? changes(root.required("changes")) : null);
  }

  /** Changes against another plan, as a plan file or a course's log holds them. */
  public static List<PlanChange> changes(Node node) {
    List<PlanChange> changes = new ArrayList<>();
    for (Node one : node.items()) {
      Fields fields = one.object("visit", "what", "why");
      changes.add(
          new PlanChange(
              fields.optional("visit").map(n -> n.whole(1, MOST_VISITS)).orElse(null),
              fields.required("what").text(SENTENCE),
              fields.required("why").text(SENTENCE)));
    }
    return changes;
  }

  private static void visit(Node node, List<Visit> visits, List<PlanFile.VisitSums> sums) {
    Fields fields =
        node.object(
            "visit",
            "numbSide",
            "expectedMinutes",
            "bookedMinutes",
            "overrunRisk",
            "areas",
            "tipChanges",
            "injections",
            "doses",
            "epinephrineMg",
            "cartridges",
            "gelCartridges",
            "sleeves",
            "sequence",
            "tray",
            "watch",
            "cautions");
    int number = fields.required("visit").whole(1, MOST_VISITS);
    NumbSide numbSide =
        fields.required("numbSide").word(List.of(NumbSide.values()), NumbSide::word);
    double expected = fields.required("expectedMinutes").number(0, DAY_MINUTES);
    int booked = fields.required("bookedMinutes").whole(1, DAY_MINUTES);
    double risk = fields.required("overrunRisk").number(0, 1);
    List<String> areas = texts(fields.required("areas"), 200);
    int tipChanges = fields.required("tipChanges").whole(0, MOST_ENTRIES);
    List<GivenInjection> injections = new ArrayList<>();
    for (Node one : fields.required("injections").items()) {
      injections.add(injection(one));
    }
    List<Dose> doses = new ArrayList<>();
    for (Node one : fields.required("doses").items()) {
      doses.add(dose(one));
    }
    double epinephrine = fields.required("epinephrineMg").number(0, 1000);
    int cartridges = fields.required("cartridges").whole(0, 1000);
    double gelCartridges = fields.required("gelCartridges").number(0, 1000);
    int sleeves = fields.required("sleeves").whole(0, 1000);
    List<Entry> sequence = new ArrayList<>();
    for (Node one : fields.required("sequence").items(0, MOST_ENTRIES)) {
      sequence.add(entry(one));
    }
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
            texts(fields.required("tray"), 200),
            texts(fields.required("watch"), SENTENCE),
            texts(fields.required("cautions"), SENTENCE)));
    sums.add(new PlanFile.VisitSums(expected, tipChanges));
  }

  private static GivenInjection injection(Node node) {
    Fields fields = node.object("injection", "side", "quadrant", "tooth", "agent", "ml");
    String name = fields.required("injection").text();
    Node sideNode = fields.required("side");
    Side side = sideNode.word(List.of(Side.values()), Side::word);
    Quadrant quadrant =
        fields.required("quadrant").word(List.of(Quadrant.values()), Quadrant::name);
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
    String agent = fields.required("agent").text();
    return new GivenInjection(
        name, quadrant, tooth, agent, fields.required("ml").number(0.01, 100));
  }

  private static Dose dose(Node node) {
    Fields fields = node.object("agent", "mg", "maxMg", "share");
    return new Dose(
        fields.required("agent").text(),
        fields.required("mg").number(0, 1_000_000),
        fields.required("maxMg").number(0, 1_000_000),
        fields.required("share").number(0, 1000));
  }

  private static Entry entry(Node node) {
    Do kind = node.map().required("do").word(List.of(Do.values()), Do::word);
    // An entry of unknown kind has one fault, not one more for each of its keys.
    Fields fields = known(node) ? node.object(kind.keys()) : node.map();
    double startMinute = fields.required("startMinute").number(0, DAY_MINUTES);
    double minutes = fields.required("minutes").number(0.01, DAY_MINUTES);
    int start = PlanFile.seconds(startMinute);
    // A hundredth of a minute can round to no second at all; no entry is shorter than one.
    int seconds = Math.max(1, PlanFile.seconds(startMinute + minutes) - start);
    if (!known(node)) {
      return new Entry.SetUp(start, seconds);
    }
    return switch (kind) {
      case SETUP -> new Entry.SetUp(start, seconds);
      case INJECT -> new Entry.Inject(start, seconds, fields.required("what").text(SENTENCE));
      case WAIT -> new Entry.Wait(start, seconds, fields.required("what").text(SENTENCE));
      case CHANGE_TIP -> new Entry.ChangeTip(start, seconds, fields.required("to").text(SENTENCE));
      case REPOSITION -> new Entry.Reposition(start, seconds, fields.required("to").text(SENTENCE));
      case CLOSE -> new Entry.Close(start, seconds);
      case DEBRIDE -> debride(fields, start, seconds);
    };
  }

  private static boolean known(Node entry) {
    Fields fields = entry.map();
    return fields
        .optional("do")
        .filter(Node::isText)
        .filter(kind -> List.of(Do.values()).stream().anyMatch(d -> d.word().equals(kind.text())))
        .isPresent();
  }

  private static Entry debride(Fields fields, int start, int seconds) {
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
        fields.required("area").text(),
        fields.required("aspect").word(List.of(StepAspect.values()), StepAspect::word),
        pass,
        fields.required("insert").text(),
        fields.required("power").word(List.of(Power.values()), Power::word),
        fields.required("needsNumb").truth(),
        teeth);
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

  private static HeldBack heldBack(Node node) {
    Fields fields = node.object("area", "pass", "aspect", "teeth", "reason");
    return new HeldBack(
        fields.required("area").text(),
        fields.required("pass").word(List.of(Pass.values()), Pass::word).word(),
        fields.required("aspect").word(List.of(StepAspect.values()), StepAspect::word).word(),
        String.join(" ", teeth(fields.required("teeth")).stream().map(Tooth::toString).toList()),
        fields.required("reason").text(SENTENCE));
  }

  private static int[] range(Node node, String low, String high, int most) {
    Fields fields = node.object(low, high);
    int from = fields.required(low).whole(0, most);
    Node to = fields.required(high);
    int until = to.whole(0, most);
    if (to.isNumber() && until < from) {
      to.fault("at least \"" + low + "\", " + from);
    }
    return new int[] {from, until};
  }

  private static List<Tooth> teeth(Node node) {
    List<Tooth> teeth = new ArrayList<>();
    for (Node one : node.items(1, 16)) {
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
  private static @Nullable Tooth tooth(Node node) {
    if (node.isText() && ISO_CODE.matcher(node.text()).matches()) {
      return Tooth.ofIso(Integer.parseInt(node.text()));
    }
    node.fault("an ISO 3950 code in quotes, \"11\" to \"48\"");
    return null;
  }

  private static List<String> texts(Node node, int most) {
    return node.items().stream().map(one -> one.text(most)).toList();
  }
}
