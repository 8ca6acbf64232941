package quadrille.facts.practice;

import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import quadrille.document.Fields;
import quadrille.document.JsonLayout;
import quadrille.document.Node;
import quadrille.facts.chart.Alert;
import quadrille.facts.chart.Deposit;
import quadrille.facts.chart.Jaw;

/** Reads minutes, appointments, alerts, weights and the hint on codes. */
final class SettingsReading {

  private SettingsReading() {}

  static Appointments appointments(Node node) {
    Fields fields =
        node.object(
            "unitMinutes",
            "longestVisitMinutes",
            "certainty",
            "gapMinDays",
            "gapMaxDays",
            "reevaluateFromWeeks",
            "reevaluateToWeeks",
            "kitHolds",
            "oneNumbSide",
            "midlineInfiltration",
            "passesTogether");
    Appointments read =
        new Appointments(
            FigureReading.whole(fields.required("unitMinutes"), 1, 60),
            FigureReading.whole(fields.required("longestVisitMinutes"), 10, 480),
            FigureReading.number(fields.required("certainty"), 0.001, 0.999),
            FigureReading.whole(fields.required("gapMinDays"), 0, 365),
            FigureReading.whole(fields.required("gapMaxDays"), 0, 365),
            FigureReading.whole(fields.required("reevaluateFromWeeks"), 1, 104),
            FigureReading.whole(fields.required("reevaluateToWeeks"), 1, 104),
            FigureReading.whole(fields.required("kitHolds"), 1, 100),
            fields.required("oneNumbSide").truth(),
            fields.required("midlineInfiltration").truth(),
            PassesTogether.read(fields.required("passesTogether")));
    inOrder(fields, "gapMinDays", read.gapMinDays(), "gapMaxDays", read.gapMaxDays());
    inOrder(
        fields,
        "reevaluateFromWeeks",
        read.reevaluateFromWeeks(),
        "reevaluateToWeeks",
        read.reevaluateToWeeks());
    inOrder(
        fields,
        "unitMinutes",
        read.unitMinutes(),
        "longestVisitMinutes",
        read.longestVisitMinutes());
    return read;
  }

  /** The fault goes to the one that the practice changed, or else to the larger one. */
  private static void inOrder(
      Fields fields, String lowKey, Figure low, String highKey, Figure high) {
    if (low.value() <= high.value()) {
      return;
    }
    Node lowNode = fields.required(lowKey);
    Node highNode = fields.required(highKey);
    if (FigureReading.isOwn(highNode)) {
      highNode.fault(shown(high), "at least " + lowKey + " (" + shown(low) + ")");
    } else {
      lowNode.fault(shown(low), "at most " + highKey + " (" + shown(high) + ")");
    }
  }

  private static String shown(Figure figure) {
    return JsonLayout.number(figure.value());
  }

  /**
   * @param longestNode where the longest visit stands, for a fault about what it leaves for work
   */
  static Minutes minutes(Node node, Appointments appointments, Node longestNode, Frame frame) {
    Fields fields =
        node.object(
            "fineBands",
            "rootAreaMm2",
            "furcationFactor",
            "provisionalDepthMm",
            "grossSeconds",
            "crownFactor",
            "finishingSeconds",
            "implantCareSeconds",
            "tipChangeSeconds",
            "repositionAreaSeconds",
            "repositionAspectSeconds",
            "chartToothSeconds",
            "handFactor",
            "lookMinutes",
            "setUpMinutes",
            "closeMinutes",
            "spreadSigma");
    Minutes read =
        new Minutes(
            fineBands(fields.required("fineBands")),
            rootAreas(fields.required("rootAreaMm2")),
            list(fields.required("furcationFactor"), 4, 0.1, 10),
            FigureReading.number(fields.required("provisionalDepthMm"), 0, 20),
            grossSeconds(fields.required("grossSeconds")),
            list(fields.required("crownFactor"), 8, 0.1, 10),
            FigureReading.number(fields.required("finishingSeconds"), 0, 3600),
            FigureReading.number(fields.required("implantCareSeconds"), 0, 3600),
            FigureReading.number(fields.required("tipChangeSeconds"), 0, 3600),
            FigureReading.number(fields.required("repositionAreaSeconds"), 0, 3600),
            FigureReading.number(fields.required("repositionAspectSeconds"), 0, 3600),
            FigureReading.number(fields.required("chartToothSeconds"), 0, 3600),
            FigureReading.number(fields.required("handFactor"), 0.1, 10),
            FigureReading.number(fields.required("lookMinutes"), 0, 60),
            FigureReading.number(fields.required("setUpMinutes"), 0, 120),
            FigureReading.number(fields.required("closeMinutes"), 0, 120),
            FigureReading.number(fields.required("spreadSigma"), 0, 2));
    double idle =
        read.setUpMinutes().value() + read.closeMinutes().value() + frame.minutesOfEveryVisit();
    double longest = appointments.longestVisitMinutes().value();
    if (idle >= longest) {
      FigureReading.blamed(longestNode, node)
          .fault(
              "setUpMinutes, closeMinutes and the frame of every visit of "
                  + JsonLayout.number(idle)
                  + " together with longestVisitMinutes of "
                  + JsonLayout.number(longest),
              "a longest visit that leaves time for work");
    }
    return read;
  }

  static Frame frame(Node node) {
    Fields fields =
        node.object(List.of(Frame.Task.values()).stream().map(Frame.Task::word).toList());
    Map<Frame.Task, Frame.Part> parts = new EnumMap<>(Frame.Task.class);
    for (Frame.Task task : Frame.Task.values()) {
      parts.put(task, part(fields.required(task.word()), task));
    }
    return new Frame(parts);
  }

  private static Frame.Part part(Node node, Frame.Task task) {
    boolean rinse = task == Frame.Task.RINSE;
    Fields fields =
        rinse
            ? node.object("minutes", "visits", "alerts", "agent")
            : node.object("minutes", "visits", "alerts");
    return new Frame.Part(
        FigureReading.number(fields.required("minutes"), 0, 60),
        fields.required("visits").word(List.of(Frame.Visits.values()), Frame.Visits::word),
        Set.copyOf(
            FigureReading.given(fields, "alerts")
                .map(list -> list.words(List.of(Alert.values()), Alert::word))
                .orElse(List.of())),
        rinse ? FigureReading.given(fields, "agent").map(Node::text).orElse(null) : null);
  }

  private static List<Minutes.FineBand> fineBands(Node node) {
    List<Minutes.FineBand> bands = new ArrayList<>();
    for (Node item : node.items(1, 21)) {
      Fields fields = item.object("fromMm", "seconds");
      Node fromNode = fields.required("fromMm");
      int from = fromNode.whole(0, 20);
      Figure seconds = FigureReading.number(fields.required("seconds"), 0, 3600);
      if (fromNode.isNumber()) {
        if (bands.isEmpty() && from != 0) {
          fromNode.fault("0 in the first band");
        } else if (!bands.isEmpty() && from <= bands.get(bands.size() - 1).fromMm()) {
          fromNode.fault(
              "more than in the band before (" + bands.get(bands.size() - 1).fromMm() + ")");
        }
      }
      bands.add(new Minutes.FineBand(from, seconds));
    }
    return List.copyOf(bands);
  }

  private static Map<Jaw, List<Figure>> rootAreas(Node node) {
    Fields fields = node.object(List.of(Jaw.values()).stream().map(PracticeWords::jaw).toList());
    Map<Jaw, List<Figure>> areas = new EnumMap<>(Jaw.class);
    for (Jaw jaw : Jaw.values()) {
      areas.put(jaw, list(fields.required(PracticeWords.jaw(jaw)), 8, 10, 2000));
    }
    return Collections.unmodifiableMap(areas);
  }

  private static Map<Deposit, Figure> grossSeconds(Node node) {
    Fields fields = node.object(List.of(Deposit.values()).stream().map(Deposit::word).toList());
    Map<Deposit, Figure> seconds = new EnumMap<>(Deposit.class);
    for (Deposit deposit : Deposit.values()) {
      seconds.put(deposit, FigureReading.number(fields.required(deposit.word()), 0, 3600));
    }
    return Collections.unmodifiableMap(seconds);
  }

  private static List<Figure> list(Node node, int length, double least, double most) {
    return node.items(length, length).stream()
        .map(item -> FigureReading.number(item, least, most))
        .toList();
  }

  /**
   * @param forbiddable drugs and vasoconstrictors that an alert may forbid
   */
  static Map<Alert, AlertRule> alerts(Node node, List<String> forbiddable) {
    Fields fields = node.object(List.of(Alert.values()).stream().map(Alert::word).toList());
    Map<Alert, AlertRule> rules = new EnumMap<>(Alert.class);
    for (Alert alert : Alert.values()) {
      rules.put(alert, alert(alert, fields.required(alert.word()), forbiddable));
    }
    return Collections.unmodifiableMap(rules);
  }

  private static AlertRule alert(Alert alert, Node node, List<String> forbiddable) {
    Fields fields =
        node.object(
            "includes",
            "stopQuestions",
            "forbids",
            "forbidsAmides",
            "forbidsGel",
            "forbidsRinses",
            "epinephrineCapMg",
            "longestVisitMinutes",
            "teethBeforeLook",
            "minGapDays",
            "maxGapDays",
            "forbidsOneDay",
            "visitPriceSeconds",
            "injectionWeightFactor",
            "blockPriceSeconds",
            "blockBeforeLookSeconds",
            "prefersGel",
            "numbFirst",
            "byHand",
            "measuresAfterFirst",
            "countsCovers",
            "warns",
            "cautions",
            "source");
    AlertRule rule =
        new AlertRule(
            alert,
            FigureReading.given(fields, "includes")
                .map(list -> list.words(List.of(Alert.values()), Alert::word))
                .orElse(List.of()),
            texts(fields, "stopQuestions"),
            FigureReading.given(fields, "forbids")
                .map(list -> list.words(forbiddable, word -> word))
                .orElse(List.of()),
            FigureReading.truth(fields, "forbidsAmides"),
            FigureReading.truth(fields, "forbidsGel"),
            texts(fields, "forbidsRinses"),
            FigureReading.given(fields, "epinephrineCapMg")
                .map(cap -> FigureReading.number(cap, 0, AnaesthesiaReading.MOST_EPINEPHRINE_MG))
                .orElse(null),
            whole(fields, "longestVisitMinutes", 10, 480),
            whole(fields, "teethBeforeLook", 1, 32),
            whole(fields, "minGapDays", 0, 365),
            whole(fields, "maxGapDays", 0, 365),
            FigureReading.truth(fields, "forbidsOneDay"),
            number(fields, "visitPriceSeconds", 36000),
            number(fields, "injectionWeightFactor", 100),
            number(fields, "blockPriceSeconds", 36000),
            number(fields, "blockBeforeLookSeconds", 36000),
            FigureReading.truth(fields, "prefersGel"),
            FigureReading.truth(fields, "numbFirst"),
            FigureReading.truth(fields, "byHand"),
            FigureReading.truth(fields, "measuresAfterFirst"),
            FigureReading.truth(fields, "countsCovers"),
            warns(fields, forbiddable),
            texts(fields, "cautions"),
            FigureReading.source(
                fields,
                "includes",
                "stopQuestions",
                "forbids",
                "forbidsAmides",
                "forbidsGel",
                "forbidsRinses",
                "forbidsOneDay",
                "prefersGel",
                "numbFirst",
                "byHand",
                "measuresAfterFirst",
                "countsCovers",
                "warns",
                "cautions"));
    if (node.isObject() && rule.doesNothing()) {
      node.fault("nothing that it asks or does", "a stop question, or something that it does");
    }
    if (rule.minGapDays() != null
        && rule.maxGapDays() != null
        && rule.minGapDays().value() > rule.maxGapDays().value()) {
      inOrder(fields, "minGapDays", rule.minGapDays(), "maxGapDays", rule.maxGapDays());
    }
    return rule;
  }

  private static List<String> texts(Fields fields, String key) {
    List<String> texts = new ArrayList<>();
    FigureReading.given(fields, key)
        .ifPresent(list -> list.items(0, 50).forEach(one -> texts.add(one.text(400))));
    return texts;
  }

  private static @Nullable Figure whole(Fields fields, String key, int least, int most) {
    return FigureReading.given(fields, key)
        .map(node -> FigureReading.whole(node, least, most))
        .orElse(null);
  }

  private static @Nullable Figure number(Fields fields, String key, double most) {
    return FigureReading.given(fields, key)
        .map(node -> FigureReading.number(node, 0, most))
        .orElse(null);
  }

  private static Map<String, String> warns(Fields fields, List<String> drugs) {
    Map<String, String> warns = new LinkedHashMap<>();
    FigureReading.given(fields, "warns")
        .map(node -> node.object(drugs))
        .ifPresent(
            some ->
                some.keys()
                    .forEach(
                        drug ->
                            FigureReading.given(some, drug)
                                .ifPresent(text -> warns.put(drug, text.text(400)))));
    return warns;
  }

  static Weights weights(Node node) {
    Fields fields =
        node.object(
            "balance",
            "splitQuadrant",
            "worstLate",
            "injection",
            "cartridge",
            "noRoomToRepeat",
            "wish",
            "returnToQuadrant",
            "worstFirst",
            "areaLeftOpen",
            "needleWithinArea");
    return new Weights(
        FigureReading.number(fields.required("balance"), 0, 100),
        FigureReading.number(fields.required("splitQuadrant"), 0, 36000),
        FigureReading.number(fields.required("worstLate"), 0, 36000),
        FigureReading.number(fields.required("injection"), 0, 36000),
        FigureReading.number(fields.required("cartridge"), 0, 36000),
        FigureReading.number(fields.required("noRoomToRepeat"), 0, 36000),
        FigureReading.number(fields.required("wish"), 0, 36000),
        FigureReading.number(fields.required("returnToQuadrant"), 0, 36000),
        FigureReading.number(fields.required("worstFirst"), 0, 36000),
        FigureReading.number(fields.required("areaLeftOpen"), 0, 36000),
        FigureReading.number(fields.required("needleWithinArea"), 0, 36000));
  }

  static CodeHint codeHint(Node node) {
    Fields fields = node.object("shown", "fullQuadrantTeeth", "quadrantsDay");
    return new CodeHint(
        fields.required("shown").truth(),
        FigureReading.whole(fields.required("fullQuadrantTeeth"), 2, 8),
        FigureReading.whole(fields.required("quadrantsDay"), 1, 4));
  }
}
