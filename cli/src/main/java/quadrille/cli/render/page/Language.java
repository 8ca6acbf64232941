package quadrille.cli.render.page;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.text.MessageFormat;
import java.util.List;
import java.util.Locale;
import java.util.Properties;
import java.util.SortedSet;
import java.util.TreeSet;

/**
 * What is said to the patient, in one language. The words stand in a file of their own, {@code
 * patient_CODE.properties}; one more language is one more file and its code here.
 */
public final class Language {

  private static final List<String> CODES = List.of("en", "de");

  private final String code;
  private final Properties words;

  private Language(String code, Properties words) {
    this.code = code;
    this.words = words;
  }

  /** The codes (ISO 639-1) of the languages there are, English first. */
  public static List<String> codes() {
    return CODES;
  }

  /**
   * A language.
   *
   * @throws IllegalArgumentException where there is none of this code
   */
  public static Language of(String code) {
    if (!CODES.contains(code)) {
      throw new IllegalArgumentException("The language (" + code + ") must be one of " + CODES);
    }
    String file = "patient_" + code + ".properties";
    try (InputStream in = Language.class.getResourceAsStream(file)) {
      if (in == null) {
        throw new IllegalStateException("The resource (" + file + ") must be in the jar.");
      }
      Properties words = new Properties();
      words.load(new InputStreamReader(in, UTF_8));
      return new Language(code, words);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** English. */
  public static Language english() {
    return of("en");
  }

  /** The code, as the {@code lang} attribute of a page takes it. */
  public String code() {
    return code;
  }

  /**
   * A text.
   *
   * @param values what its placeholders stand for
   * @throws IllegalArgumentException where the language has no such text
   */
  String text(String key, Object... values) {
    String pattern = words.getProperty(key);
    if (pattern == null) {
      throw new IllegalArgumentException("The language " + code + " has no text (" + key + ").");
    }
    return new MessageFormat(pattern, Locale.forLanguageTag(code)).format(values);
  }

  /** The texts {@code key.1}, {@code key.2} … of a list. */
  List<String> list(String key) {
    return keys().stream()
        .filter(name -> name.matches(key.replace(".", "\\.") + "\\.\\d"))
        .map(this::text)
        .toList();
  }

  /** The keys of all texts, sorted. */
  SortedSet<String> keys() {
    return new TreeSet<>(words.stringPropertyNames());
  }

  /** A text as it stands in the file. */
  String pattern(String key) {
    return words.getProperty(key, "");
  }
}
