package quadrille.cli;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Option;
import quadrille.document.Faults;
import quadrille.document.Node;
import quadrille.document.Place;
import quadrille.facts.practice.Pass;
import quadrille.plan.work.StepAspect;

/**
 * What a person says of a visit on the command line, or in answer to questions. What is wrong is
 * told with the option that says it.
 */
final class VisitOptions {
  /** What a sheet prints of a pass, before its area. */
  private static final Map<String, String> SHEET =
      Map.of(
          "gross", Pass.GROSS.word(),
          "fine", Pass.FINE.word(),
          "finish", Pass.FINISHING.word(),
          "finishing", Pass.FINISHING.word(),
          "implant", Pass.IMPLANT_CARE.word());

  private static final Map<String, String> HALVES = Map.of("ant", "anterior", "post", "posterior");

  private static final Pattern SITE =
      Pattern.compile("(\\S+) (\\S+) ([a-z]+)=([^ ]+)( bleeding| dry)?");

  @Option(
      names = "--visit",
      order = 20,
      paramLabel = "N",
      description = "The visit's number in the plan.")
  @Nullable String visit;

  @Option(names = "--date", order = 21, paramLabel = "DAY", description = "Such as 2026-03-02.")
  @Nullable String date;

  @Option(
      names = "--clinician",
      order = 22,
      paramLabel = "NAME",
      description = "Who worked, by the practice's own reference.")
  @Nullable String clinician;

  @Option(
      names = "--minutes",
      order = 23,
      paramLabel = "MIN",
      description = "From the start of set-up to the end.")
  @Nullable String minutes;

  @Option(
      names = "--time",
      order = 24,
      paramLabel = "WORK=MIN",
      description = "Minutes of one pass, as \"UR posterior fine=18\"; may be repeated.")
  List<String> times = new ArrayList<>();

  @Option(
      names = "--booked",
      order = 25,
      paramLabel = "MIN",
      description = "What it was booked for, where not as planned or booked.")
  @Nullable String booked;

  @Option(
      names = "--not-done",
      order = 26,
      paramLabel = "WORK",
      description = "A pass that was not done, as \"UR posterior fine\" or \"… facial\".")
  List<String> notDone = new ArrayList<>();

  @Option(
      names = "--part",
      order = 27,
      paramLabel = "WORK=SHARE",
      description =
          "How much of a pass was done, 0 to 1, as \"UR posterior fine=0.5\" or \"Finish LR ant=half\"; work of a later visit"
              + " that was done early, too.")
  List<String> parts = new ArrayList<>();

  @ArgGroup @Nullable Injections injections;

  /** What was given; as planned, where nothing is said. */
  static final class Injections {
    @Option(
        names = "--given",
        order = 28,
        paramLabel = "INJECTION",
        description =
            "In place of the plan's injections: name, quadrant or tooth, agent, mL, as \"inferior"
                + " alveolar LR articaine-4-200 1.5\"; once for each.")
    List<String> given = new ArrayList<>();

    @Option(names = "--no-injections", order = 29, description = "None was given.")
    boolean none;
  }

  @Option(
      names = "--failed",
      order = 30,
      paramLabel = "INJECTION",
      description =
          "An injection that did not take: \"inferior alveolar LR\"; with the minutes that it kept the"
              + " visit, \"inferior alveolar LR=12\", calibration takes them out.")
  List<String> failed = new ArrayList<>();

  @Option(
      names = "--depth",
      order = 31,
      paramLabel = "SITE=MM",
      description =
          "A site probed anew: \"16 facial distal=7\", the tooth as the chart names it, with \" bleeding\" or \" dry\" behind it"
              + " where it was looked at.")
  List<String> depths = new ArrayList<>();

  @Option(
      names = "--pus",
      order = 32,
      paramLabel = "PLACE",
      description = "Where pus came: \"16 facial\", the tooth as the chart names it.")
  List<String> pus = new ArrayList<>();

  @Option(
      names = "--sleeve-broken",
      order = 33,
      paramLabel = "TOOTH",
      description = "An implant at which a sleeve broke.")
  List<String> sleeves = new ArrayList<>();

  @Option(
      names = "--interrupted",
      order = 34,
      description = "Something beside the work stretched it or cut it short.")
  boolean interrupted;

  @Option(
      names = "--note",
      order = 35,
      paramLabel = "TEXT",
      description = "Anything else; - reads it from standard input.")
  @Nullable String note;

  /**
   * A pass with its share, as people say it: {@code Finish LR ant half}, {@code UR posterior fine
   * 30 %}; without a share, nothing of it was done.
   *
   * @return as {@code --part} has it
   */
  static String share(String text) {
    List<String> words = new ArrayList<>(List.of(text.strip().split(" +")));
    String last = words.get(words.size() - 1);
    if (last.equals("%") && words.size() > 1) {
      words.remove(words.size() - 1);
      last = words.get(words.size() - 1) + last;
    }
    boolean share =
        last.equals("half")
            || isNumber(last.endsWith("%") ? last.substring(0, last.length() - 1) : last);
    if (share) {
      words.remove(words.size() - 1);
    }
    return String.join(" ", words) + "=" + (share ? last : "0");
  }

  /** Whether it is a number of digits and at most one point. */
  static boolean isNumber(String text) {
    return text.chars().anyMatch(Character::isDigit)
        && text.chars().allMatch(c -> Character.isDigit(c) || c == '.')
        && text.chars().filter(c -> c == '.').count() <= 1;
  }

  /** What was said, as the reader of visit records takes it. */
  Node tree(Faults faults) {
    return new Tree(faults).root();
  }

  private final class Tree {
    private final Faults faults;

    Tree(Faults faults) {
      this.faults = faults;
    }

    Node root() {
      Map<String, Node> root = new LinkedHashMap<>();
      put(root, "visit", "--visit", visit);
      put(root, "date", "--date", date);
      put(root, "clinician", "--clinician", clinician);
      put(root, "minutes", "--minutes", minutes);
      put(root, "bookedMinutes", "--booked", booked);
      put(root, "note", "--note", note);
      if (interrupted) {
        root.put("interrupted", Node.ofCell(faults, at("--interrupted"), "true"));
      }
      List<Node> steps = new ArrayList<>();
      notDone.forEach(text -> steps.add(work("--not-done", text, "share", "0")));
      parts.forEach(text -> steps.add(valued("--part", text, "share")));
      list(root, "steps", "--part", steps);
      list(
          root,
          "parts",
          "--time",
          times.stream().map(text -> valued("--time", text, "minutes")).toList());
      if (injections != null) {
        List<Node> all = new ArrayList<>();
        injections.given.forEach(text -> all.add(injection("--given", text, true)));
        root.put("injections", Node.ofElements(faults, at("--given"), all));
      }
      List<Node> found = new ArrayList<>();
      failed.forEach(text -> found.add(failed(text)));
      depths.forEach(text -> found.add(depth(text)));
      pus.forEach(text -> found.add(pus(text)));
      for (String text : sleeves) {
        Map<String, Node> members = new LinkedHashMap<>();
        members.put("what", text("--sleeve-broken", "broken-sleeve"));
        members.put("tooth", text("--sleeve-broken", text.strip()));
        found.add(object("--sleeve-broken", members));
      }
      list(root, "found", "--depth", found);
      return Node.ofMembers(faults, Place.of("the options"), root);
    }

    private void put(Map<String, Node> root, String key, String option, @Nullable String value) {
      if (value != null) {
        boolean number = key.equals("visit") || key.endsWith("inutes");
        root.put(
            key, number ? Node.ofCell(faults, at(option), value) : text(option, value.strip()));
      }
    }

    private void list(Map<String, Node> root, String key, String option, List<Node> values) {
      if (!values.isEmpty()) {
        root.put(key, Node.ofElements(faults, at(option), values));
      }
    }

    /** {@code UR posterior fine facial=0.5}. */
    private Node valued(String option, String text, String key) {
      int equals = text.lastIndexOf('=');
      if (equals < 0) {
        faults.add(at(option), "\"" + text + "\"", "an area, a pass, = and a number");
        return Node.standIn(faults, at(option));
      }
      String value = text.substring(equals + 1).strip();
      return work(
          option, text.substring(0, equals), key, key.equals("share") ? number(value) : value);
    }

    /** A share as a sheet's reader says it. */
    private String number(String share) {
      String percent = share.endsWith("%") ? share.substring(0, share.length() - 1).strip() : "";
      return share.equals("half")
          ? "0.5"
          : isNumber(percent)
              ? new BigDecimal(percent).movePointLeft(2).stripTrailingZeros().toPlainString()
              : isNumber(share) ? new BigDecimal(share).toPlainString() : share;
    }

    private Node work(String option, String text, String key, String value) {
      List<String> words = new ArrayList<>(List.of(text.strip().split(" +")));
      Map<String, Node> members = new LinkedHashMap<>();
      String last = words.get(words.size() - 1);
      for (StepAspect aspect : StepAspect.values()) {
        if (words.size() > 1 && aspect.word().equals(last)) {
          members.put("aspect", text(option, last));
          words.remove(words.size() - 1);
        }
      }
      String sheet = SHEET.get(words.get(0).toLowerCase(Locale.ROOT));
      String pass = words.remove(sheet == null ? words.size() - 1 : 0);
      pass = sheet == null ? pass : sheet;
      words.replaceAll(word -> HALVES.getOrDefault(word, word));
      if (words.isEmpty()) {
        faults.add(
            at(option),
            "\"" + text + "\"",
            "an area and a pass, such as \"UR posterior " + Pass.FINE.word() + "\"");
        return Node.standIn(faults, at(option));
      }
      members.put("area", text(option, String.join(" ", words)));
      members.put("pass", text(option, pass));
      members.put(key, Node.ofCell(faults, at(option), value));
      return object(option, members);
    }

    /** {@code inferior alveolar LR articaine-4-200 1.5}, without the last two where it failed. */
    private Node injection(String option, String text, boolean given) {
      List<String> words = new ArrayList<>(List.of(text.strip().split(" +")));
      int least = given ? 4 : 2;
      if (words.size() < least) {
        faults.add(
            at(option),
            "\"" + text + "\"",
            given
                ? "an injection, its quadrant or tooth, the agent and the mL"
                : "an injection and its quadrant or tooth");
        return Node.standIn(faults, at(option));
      }
      Map<String, Node> members = new LinkedHashMap<>();
      if (given) {
        members.put("ml", Node.ofCell(faults, at(option), words.remove(words.size() - 1)));
        members.put("agent", text(option, words.remove(words.size() - 1)));
      }
      String place = words.remove(words.size() - 1);
      if (place.chars().anyMatch(Character::isDigit)) {
        members.put("tooth", text(option, place));
      } else {
        members.put("quadrant", text(option, place.toUpperCase(Locale.ROOT)));
      }
      members.put("injection", text(option, String.join(" ", words)));
      return object(option, members);
    }

    /** {@code inferior alveolar LR}, or with the minutes that it took, {@code …=12}. */
    private Node failed(String text) {
      String option = "--failed";
      int at = text.lastIndexOf('=');
      Node node = injection(option, at < 0 ? text : text.substring(0, at), false);
      if (!node.isObject()) {
        return node;
      }
      Map<String, Node> members = new LinkedHashMap<>();
      members.put("what", text(option, "failed-injection"));
      node.map().keys().forEach(key -> members.put(key, node.map().required(key)));
      if (at >= 0) {
        members.put("minutes", Node.ofCell(faults, at(option), text.substring(at + 1).strip()));
      }
      return object(option, members);
    }

    private Node depth(String text) {
      String option = "--depth";
      Matcher matcher = SITE.matcher(text.strip().replaceAll(" +", " "));
      if (!matcher.matches()) {
        faults.add(
            at(option),
            "\"" + text + "\"",
            "a tooth, an aspect, a site, = and mm, such as \"16 facial distal=7 bleeding\"");
        return Node.standIn(faults, at(option));
      }
      Map<String, Node> members = new LinkedHashMap<>();
      members.put("what", text(option, "depth"));
      members.put("tooth", text(option, matcher.group(1)));
      members.put("aspect", text(option, matcher.group(2)));
      members.put("site", text(option, matcher.group(3)));
      members.put("depthMm", Node.ofCell(faults, at(option), matcher.group(4)));
      String bleeding = matcher.group(5);
      if (bleeding != null) {
        members.put(
            "bleeding",
            Node.ofCell(faults, at(option), Boolean.toString(bleeding.equals(" bleeding"))));
      }
      return object(option, members);
    }

    private Node pus(String text) {
      String option = "--pus";
      String[] words = text.strip().split(" +");
      if (words.length != 2) {
        faults.add(at(option), "\"" + text + "\"", "a tooth and an aspect, such as \"16 facial\"");
        return Node.standIn(faults, at(option));
      }
      Map<String, Node> members = new LinkedHashMap<>();
      members.put("what", text(option, "pus"));
      members.put("tooth", text(option, words[0]));
      members.put("aspect", text(option, words[1]));
      return object(option, members);
    }

    private Node object(String option, Map<String, Node> members) {
      return Node.ofMembers(faults, at(option), members);
    }

    private Node text(String option, String text) {
      return Node.ofText(faults, at(option), text);
    }
  }

  private static Place at(String option) {
    return Place.of(option);
  }
}
