package quadrille.plan.course;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import quadrille.document.Fields;
import quadrille.document.Node;
import quadrille.facts.chart.Alert;
import quadrille.facts.chart.Tooth;
import quadrille.facts.practice.Figure;
import quadrille.facts.practice.Pass;
import quadrille.plan.course.NoteWriter.AssumptionKind;
import quadrille.plan.course.NoteWriter.CautionKind;
import quadrille.plan.course.NoteWriter.ChangeKind;
import quadrille.plan.course.NoteWriter.WhyKind;
import quadrille.plan.course.PlanChange.AreaPass;
import quadrille.plan.course.PlanChange.What;
import quadrille.plan.course.PlanChange.Why;
import quadrille.plan.work.WorkNote;

/**
 * Reads what {@link NoteWriter} writes, and what stood in the first files of version 2: texts as
 * such, and objects with words in them, which are passed over.
 */
final class NoteReader {
  private static final int SENTENCE = 2000;
  private static final int MOST_VISITS = 100;
  private static final int MOST_SITES = 192;
  private static final int MOST_SECONDS = 8_640_000;
  private static final int DAY_MINUTES = 24 * 60;

  private final PlanReader plan;

  NoteReader(PlanReader plan) {
    this.plan = plan;
  }

  Caution caution(Node node) {
    if (asWritten(node)) {
      return new Caution.AsWritten(text(node));
    }
    Enum<?> kind =
        kind(
            node.map().required("caution"),
            Caution.Known.values(),
            CautionKind.values(),
            WorkNote.Kind.values());
    if (kind instanceof Caution.Known known) {
      fields(node);
      return known;
    }
    if (kind instanceof WorkNote.Kind of) {
      return new Caution.OfWork(new WorkNote.Of(of, teeth(fields(node, "teeth"))));
    }
    return switch ((CautionKind) kind) {
      case ANTIBIOTIC_COVERS -> {
        Fields fields = fields(node, "alert", "covers");
        yield new Caution.AntibioticCovers(
            fields.required("alert").word(List.of(Alert.values()), Alert::word),
            fields.required("covers").whole(1, MOST_VISITS));
      }
      case UNKNOWN_ALERT ->
          new Caution.UnknownAlert(
              fields(node, "alert").required("alert").word(List.of(Alert.values()), Alert::word));
      case UNPROBED -> {
        Fields fields = fields(node, "teeth", "takenAsMm", "source", "afterGross");
        Figure takenAs =
            Figure.written(
                fields.required("takenAsMm").number(0, 20),
                fields.required("source").text(SENTENCE));
        yield new Caution.OfWork(
            new WorkNote.Unprobed(teeth(fields), takenAs, fields.required("afterGross").truth()));
      }
      case CHART_FIRST -> {
        Fields fields =
            fields(node, "teeth", "unprobed", "sites", "mostShare", "source", "seconds");
        yield new Caution.OfWork(
            new WorkNote.ChartFirst(
                teeth(fields),
                fields.required("unprobed").whole(1, MOST_SITES),
                fields.required("sites").whole(1, MOST_SITES),
                Figure.written(
                    fields.required("mostShare").number(0, 1),
                    fields.required("source").text(SENTENCE)),
                fields.required("seconds").whole(0, MOST_SECONDS)));
      }
      case BLOCK_MAY_FAIL -> {
        Fields fields =
            fields(node, "injection", "side", "quadrant", "tooth", "agent", "ml", "room");
        yield new Caution.BlockMayFail(
            plan.injectionRef(fields),
            fields.has("room")
                ? new Caution.Rescue(
                    fields.required("agent").text(),
                    fields.required("ml").number(0.01, 100),
                    fields.required("room").truth())
                : null);
      }
      case STRONG_SOLUTION_IN_BLOCK -> {
        Fields fields = fields(node, "injection", "side", "quadrant", "tooth", "agent");
        yield new Caution.StrongSolutionInBlock(
            plan.injectionRef(fields), fields.required("agent").text());
      }
      case BLOCK_BEFORE_LOOK ->
          new Caution.BlockBeforeLook(
              plan.injectionRef(fields(node, "injection", "side", "quadrant", "tooth")));
      case DID_NOT_TAKE -> {
        Fields fields = fields(node, "injection", "side", "quadrant", "tooth", "visit", "date");
        yield new Caution.DidNotTake(
            plan.injectionRef(fields), visit(fields), fields.required("date").date());
      }
      case GIVEN_THAT_DAY -> {
        Fields fields = fields(node, "injections", "gelCartridges");
        yield new Caution.GivenThatDay(
            injections(fields, "injections"), fields.required("gelCartridges").number(0, 100));
      }
      case LEFT_OPEN -> {
        Fields fields = fields(node, "areas", "waiting");
        yield new Caution.LeftOpen(
            fields.required("areas").items().stream().map(plan::areaRef).toList(),
            fields.optional("waiting").map(this::passes).orElse(List.of()));
      }
      case SLEEVE_BROKE -> {
        Fields fields = fields(node, "tooth", "visit", "date");
        @Nullable Tooth tooth = plan.tooth(fields.required("tooth"));
        yield new Caution.SleeveBroke(
            tooth == null ? Tooth.ofIso(11) : tooth, visit(fields), fields.required("date").date());
      }
    };
  }

  /** Nothing where it says that the search was cut short. */
  Optional<Assumption> assumption(Node node) {
    if (asWritten(node)) {
      return Optional.of(new Assumption.AsWritten(text(node)));
    }
    Enum<?> kind =
        kind(node.map().required("assumption"), Assumption.Use.values(), AssumptionKind.values());
    if (kind == AssumptionKind.CUT_SHORT) {
      fields(node);
      return Optional.empty();
    }
    if (kind == AssumptionKind.BOOKED_IN_TIME) {
      Fields fields = fields(node, "certainty", "spread", "source");
      return Optional.of(
          new Assumption.BookedInTime(
              fields.required("certainty").number(0, 1),
              fields.required("spread").number(0, 100),
              fields.required("source").text(SENTENCE)));
    }
    Fields fields = fields(node, "seconds", "value", "source");
    return Optional.of(
        new Assumption.Time(
            (Assumption.Use) kind,
            fields.required("seconds").whole(0, MOST_VISITS * DAY_MINUTES * 60),
            fields.required("value").number(0, 1_000_000),
            fields.required("source").text(SENTENCE)));
  }

  PlanChange change(Node node) {
    Fields fields = node.object("visit", "what", "why", "change", "because");
    What what =
        fields.has("change")
            ? what(fields.required("change"))
            : new What.AsWritten(fields.required("what").text(SENTENCE));
    Why why =
        fields.has("because")
            ? why(fields.required("because"))
            : new Why.AsWritten(fields.required("why").text(SENTENCE));
    return new PlanChange(
        fields.optional("visit").map(n -> n.whole(1, MOST_VISITS)).orElse(null), what, why);
  }

  private What what(Node node) {
    return switch ((ChangeKind) kind(node.map().required("kind"), ChangeKind.values())) {
      case OTHER_PRACTICE -> {
        Fields fields = node.object("kind", "practice", "before");
        yield new What.OtherPractice(
            fields.required("practice").text(), fields.required("before").text());
      }
      case FALLS_AWAY ->
          new What.FallsAway(node.object("kind", "booked").required("booked").truth());
      case IS_NEW -> {
        Fields fields = node.object("kind", "bookedMinutes", "passes");
        yield new What.IsNew(minutes(fields, "bookedMinutes"), passes(fields.required("passes")));
      }
      case TAKES -> new What.Takes(pass(node.object("kind", "areaRef", "pass")));
      case NO_LONGER_HAS -> new What.NoLongerHas(pass(node.object("kind", "areaRef", "pass")));
      case SECONDS -> {
        Fields fields = node.object("kind", "areaRef", "pass", "seconds", "before");
        yield new What.Seconds(
            pass(fields),
            fields.required("seconds").whole(0, 60 * DAY_MINUTES),
            fields.required("before").whole(0, 60 * DAY_MINUTES));
      }
      case NEEDS -> {
        Fields fields = node.object("kind", "minutes", "before", "booked");
        yield new What.Needs(
            minutes(fields, "minutes"),
            minutes(fields, "before"),
            fields.has("booked") ? Integer.valueOf(minutes(fields, "booked")) : null);
      }
      case NUMBS -> {
        Fields fields = node.object("kind", "side", "before");
        yield new What.Numbs(side(fields, "side"), side(fields, "before"));
      }
      case GIVES -> {
        Fields fields = node.object("kind", "injections", "before");
        yield new What.Gives(injections(fields, "injections"), injections(fields, "before"));
      }
      case OTHER_ORDER -> {
        node.object("kind");
        yield new What.OtherOrder();
      }
    };
  }

  private static Why why(Node node) {
    Enum<?> kind = kind(node.map().required("kind"), Why.Known.values(), WhyKind.values());
    if (kind instanceof Why.Known known) {
      node.object("kind");
      return known;
    }
    Fields fields = node.object("kind", "visit", "begun");
    return new Why.LeftUndone(visit(fields), fields.required("begun").truth());
  }

  private List<AreaPass> passes(Node node) {
    return node.items().stream().map(one -> pass(one.object("areaRef", "pass"))).toList();
  }

  private AreaPass pass(Fields fields) {
    return new AreaPass(
        plan.areaRef(fields.required("areaRef")),
        fields.required("pass").word(List.of(Pass.values()), Pass::word));
  }

  private List<GivenInjection> injections(Fields fields, String key) {
    List<GivenInjection> injections = new ArrayList<>();
    for (Node one : fields.required(key).items()) {
      injections.add(plan.injection(one));
    }
    return injections;
  }

  private List<Tooth> teeth(Fields fields) {
    return plan.teeth(fields.required("teeth"), 1, 32);
  }

  private static int visit(Fields fields) {
    return fields.required("visit").whole(1, MOST_VISITS);
  }

  private static int minutes(Fields fields, String key) {
    return fields.required(key).whole(1, DAY_MINUTES);
  }

  private static NumbSide side(Fields fields, String key) {
    return fields.required(key).word(List.of(NumbSide.values()), NumbSide::word);
  }

  private static boolean asWritten(Node node) {
    return !node.isObject() || node.map().has("asWritten");
  }

  private static String text(Node node) {
    return (node.isObject() ? node.object("asWritten").required("asWritten") : node).text(SENTENCE);
  }

  /** The fields of a caution or an assumption, which may have words among them. */
  private static Fields fields(Node node, String... keys) {
    List<String> all = new ArrayList<>(List.of("caution", "assumption", "words"));
    all.remove(node.map().has("caution") ? "assumption" : "caution");
    all.addAll(List.of(keys));
    Fields fields = node.object(all);
    fields.optional("words").ifPresent(words -> words.text(SENTENCE));
    return fields;
  }

  static Enum<?> kind(Node node, Enum<?>[]... some) {
    return node.word(Stream.of(some).flatMap(Stream::of).toList(), FileWords::of);
  }
}
