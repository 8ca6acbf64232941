package quadrille.diary.calendar;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;

/**
 * A component of a calendar as it stands in the file.
 *
 * @param name such as {@code VEVENT}
 * @param line where it begins
 */
record RawComponent(
    String name, int line, List<Property> properties, List<RawComponent> components) {

  /**
   * A property as it stands in the file.
   *
   * @param name in capital letters
   * @param parameters by name in capital letters, without quotes
   */
  record Property(String name, int line, Map<String, String> parameters, String value) {

    Optional<String> parameter(String key) {
      return Optional.ofNullable(parameters.get(key));
    }

    boolean valueIs(String word) {
      return value.strip().toUpperCase(Locale.ROOT).equals(word);
    }
  }

  List<Property> all(String key) {
    return properties.stream().filter(property -> property.name().equals(key)).toList();
  }

  Optional<Property> first(String key) {
    return properties.stream().filter(property -> property.name().equals(key)).findFirst();
  }

  /** The value of a property, empty where it is not there. */
  String text(String key) {
    return first(key).map(property -> property.value().strip()).orElse("");
  }
}
