package quadrille.facts.practice;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.type.TypeReference;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import quadrille.document.Fault;
import quadrille.document.Faults;
import quadrille.document.InvalidDocumentException;
import quadrille.document.JsonDocument;
import quadrille.document.JsonLayout;

/**
 * The settings of a practice one by one, and a practice file with one of them changed. What else
 * the file says stays as it is; what comes to be as the default has it is left out of the file.
 *
 * <pre>{@code
 * Setting setting = PracticeSettings.of(practice).get(0);
 * String text = PracticeSettings.changed(file, setting, "80", "our own records", "Ines", today);
 * }</pre>
 */
public final class PracticeSettings {

  private static final Pattern NUMBER = Pattern.compile("-?[0-9]{1,9}(\\.[0-9]{1,9})?");

  /** One of several that commas separate, in quotes where it may hold one. */
  private static final Pattern ITEM =
      Pattern.compile("\\s*\"([^\"]*+(?:\"\"[^\"]*+)*+)\"\\s*(?=,|$)|[^,]+");

  private static final ObjectMapper JSON =
      JsonMapper.builder().enable(DeserializationFeature.USE_BIG_DECIMAL_FOR_FLOATS).build();

  private PracticeSettings() {}

  /** All settings, in the order of the file. */
  public static List<Setting> of(Practice practice) {
    List<Setting> settings = new ArrayList<>();
    PracticeWriter.tree(practice)
        .forEach(
            (key, value) -> {
              if (!key.equals("schema")) {
                walk(List.of(key), value, settings);
              }
            });
    return settings;
  }

  private static void walk(List<String> path, @Nullable Object value, List<Setting> settings) {
    if (value instanceof Map<?, ?> map && !map.containsKey("value")) {
      map.forEach((key, part) -> walk(with(path, String.valueOf(key)), part, settings));
    } else if (value instanceof List<?> list && list.stream().anyMatch(Map.class::isInstance)) {
      for (int i = 0; i < list.size(); i++) {
        walk(with(path, Integer.toString(i)), list.get(i), settings);
      }
    } else if (value != null) {
      settings.add(setting(path, value));
    }
  }

  private static List<String> with(List<String> path, String key) {
    return Stream.concat(path.stream(), Stream.of(key)).toList();
  }

  private static Setting setting(List<String> path, Object value) {
    if (value instanceof Map<?, ?> figure) {
      return new Setting(
          path,
          Setting.Kind.FIGURE,
          Setting.written(figure.get("value")),
          String.valueOf(figure.get("source")),
          Boolean.TRUE.equals(figure.get("calibrated")));
    }
    Setting.Kind kind =
        value instanceof Boolean
            ? Setting.Kind.TRUTH
            : value instanceof Number
                ? Setting.Kind.NUMBER
                : value instanceof List<?> list
                    ? (!list.isEmpty() && list.stream().allMatch(Number.class::isInstance)
                        ? Setting.Kind.NUMBERS
                        : Setting.Kind.TEXTS)
                    : Setting.Kind.TEXT;
    return new Setting(path, kind, Setting.written(value), "", false);
  }

  /**
   * The changes that a practice file keeps, oldest first.
   *
   * @param file null where the practice has none
   */
  public static List<SettingChange> changes(@Nullable String file) throws InvalidDocumentException {
    if (file == null) {
      return List.of();
    }
    Faults faults = new Faults();
    List<SettingChange> changes =
        JsonDocument.read("practice.json", file, faults)
            .map()
            .optional("changes")
            .map(SettingChange::list)
            .orElse(List.of());
    faults.check();
    return changes;
  }

  /**
   * A practice file with one setting changed.
   *
   * @param file the practice file; null where there is none
   * @param setting one of the practice that the file makes
   * @param value as it is typed; null as the default has it
   * @param source where a figure comes from; blank for {@link Figure#OWN}
   * @param by who says so
   * @return a practice file that can be read
   * @throws InvalidDocumentException where the value, or the practice with it, is invalid
   */
  public static String changed(
      @Nullable String file,
      Setting setting,
      @Nullable String value,
      String source,
      String by,
      LocalDate at)
      throws InvalidDocumentException {
    Practice before =
        file == null ? PracticeReader.defaults() : PracticeReader.read("practice.json", file);
    Map<String, @Nullable Object> own = own(file);
    Object usual = at(PracticeWriter.tree(PracticeReader.defaults()), setting.path());
    Object now = value == null ? usual : typed(setting, value, source);
    if (now == null) {
      throw fault(setting, "nothing", "a value, as the default practice has none here");
    }
    put(own, PracticeWriter.tree(before), setting.path(), now);
    prune(own, PracticeWriter.tree(PracticeReader.defaults()), setting.path());
    String to =
        now instanceof Map<?, ?> figure
            ? Setting.written(figure.get("value"))
            : Setting.written(now);
    List<@Nullable Object> changes =
        new ArrayList<>(own.get("changes") instanceof List<?> list ? list : List.of());
    changes.add(new SettingChange(setting.pointer(), setting.value(), to, by.strip(), at).tree());
    own.remove("changes");
    own.put("changes", changes);
    String text = JsonLayout.figures(own);
    PracticeReader.read("practice.json", text);
    return text;
  }

  private static Map<String, @Nullable Object> own(@Nullable String file) {
    if (file == null) {
      Map<String, @Nullable Object> empty = new LinkedHashMap<>();
      empty.put("schema", PracticeWords.SCHEMA);
      return empty;
    }
    try {
      return JSON.readValue(file, new TypeReference<LinkedHashMap<String, @Nullable Object>>() {});
    } catch (JsonProcessingException impossible) {
      throw new IllegalStateException("A valid practice file is no JSON.", impossible);
    }
  }

  private static Object typed(Setting setting, String value, String source)
      throws InvalidDocumentException {
    String text = value.strip();
    return switch (setting.kind()) {
      case FIGURE -> {
        Map<String, Object> figure = new LinkedHashMap<>();
        figure.put("value", number(setting, text));
        figure.put("source", source.isBlank() ? Figure.OWN : source.strip());
        yield figure;
      }
      case NUMBER -> number(setting, text);
      case TRUTH -> {
        if (!text.equals("true") && !text.equals("false")) {
          throw fault(setting, "\"" + text + "\"", "true or false");
        }
        yield Boolean.valueOf(text);
      }
      case TEXT -> text;
      case NUMBERS -> {
        List<Object> numbers = new ArrayList<>();
        for (String part : parts(text)) {
          numbers.add(number(setting, part));
        }
        yield numbers;
      }
      case TEXTS -> parts(text);
    };
  }

  private static List<String> parts(String text) {
    List<String> parts = new ArrayList<>();
    Matcher items = ITEM.matcher(text);
    while (items.find()) {
      String quoted = items.group(1);
      String part = quoted == null ? items.group() : quoted.replace("\"\"", "\"");
      if (!part.isBlank()) {
        parts.add(part.strip());
      }
    }
    return parts;
  }

  private static BigDecimal number(Setting setting, String text) throws InvalidDocumentException {
    if (!NUMBER.matcher(text).matches()) {
      throw fault(setting, "\"" + text + "\"", "a number, with a point where it has decimals");
    }
    return new BigDecimal(text);
  }

  private static InvalidDocumentException fault(Setting setting, String found, String allowed) {
    return new InvalidDocumentException(List.of(new Fault(setting.pointer(), found, allowed)));
  }

  private static @Nullable Object at(@Nullable Object tree, List<String> path) {
    @Nullable Object at = tree;
    for (String key : path) {
      at = child(at, key);
    }
    return at;
  }

  private static @Nullable Object child(@Nullable Object tree, String key) {
    if (tree instanceof Map<?, ?> map) {
      return map.get(key);
    }
    return tree instanceof List<?> list && Integer.parseInt(key) < list.size()
        ? list.get(Integer.parseInt(key))
        : null;
  }

  /** Puts a value in its place; a list of the default comes into the file whole. */
  private static void put(
      Map<String, @Nullable Object> own,
      @Nullable Object practice,
      List<String> path,
      Object value) {
    Object into = own;
    @Nullable Object there = practice;
    for (String key : path.subList(0, path.size() - 1)) {
      there = child(there, key);
      Object next = inner(child(into, key), there);
      set(into, key, next);
      into = next;
    }
    set(into, path.get(path.size() - 1), value);
  }

  /** What the file has there, if it can hold anything; else a list as it is, or an empty object. */
  private static Object inner(@Nullable Object own, @Nullable Object practice) {
    if (own instanceof List || own instanceof Map && !(practice instanceof List)) {
      return own;
    }
    return practice instanceof List<?> list ? copied(list) : new LinkedHashMap<>();
  }

  @SuppressWarnings("unchecked")
  private static void set(Object into, String key, @Nullable Object value) {
    if (into instanceof Map) {
      ((Map<String, @Nullable Object>) into).put(key, value);
    } else {
      ((List<@Nullable Object>) into).set(Integer.parseInt(key), value);
    }
  }

  private static @Nullable Object copy(@Nullable Object tree) {
    if (tree instanceof Map<?, ?> map) {
      Map<String, @Nullable Object> copy = new LinkedHashMap<>();
      map.forEach((key, value) -> copy.put(String.valueOf(key), copy(value)));
      return copy;
    }
    return tree instanceof List<?> list ? copied(list) : tree;
  }

  private static List<@Nullable Object> copied(List<?> list) {
    List<@Nullable Object> copy = new ArrayList<>();
    list.forEach(value -> copy.add(copy(value)));
    return copy;
  }

  /** Takes out what is as the default has it, and what is empty then, from the inside out. */
  private static void prune(
      Map<String, @Nullable Object> own, @Nullable Object defaults, List<String> path) {
    for (int length = path.size(); length > 0; length--) {
      List<String> part = path.subList(0, length);
      @Nullable Object mine = at(own, part);
      boolean empty = mine instanceof Map<?, ?> map && map.isEmpty();
      Optional<Object> usual = Optional.ofNullable(at(defaults, part));
      if ((empty || usual.isPresent() && alike(mine, usual.get()))
          && at(own, path.subList(0, length - 1)) instanceof Map<?, ?> parent) {
        parent.remove(path.get(length - 1));
      }
    }
  }

  private static boolean alike(@Nullable Object one, @Nullable Object other) {
    if (one instanceof Map<?, ?> a && other instanceof Map<?, ?> b) {
      return a.keySet().equals(b.keySet())
          && a.keySet().stream().allMatch(key -> alike(a.get(key), b.get(key)));
    }
    if (one instanceof List<?> a && other instanceof List<?> b) {
      if (a.size() != b.size()) {
        return false;
      }
      for (int i = 0; i < a.size(); i++) {
        if (!alike(a.get(i), b.get(i))) {
          return false;
        }
      }
      return true;
    }
    return one instanceof Map == other instanceof Map
        && one instanceof List == other instanceof List
        && Setting.written(one).equals(Setting.written(other));
  }
}
