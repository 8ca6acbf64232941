package quadrille.cli;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.List;
import quadrille.diary.booking.Offer;

/** Tells offers from any others: by the diary that they were made from, and by what they say. */
final class OfferCode {

  private static final int LENGTH = 8;

  private OfferCode() {}

  static String of(String revision, List<Offer> offers) {
    try {
      MessageDigest digest = MessageDigest.getInstance("SHA-256");
      digest.update(revision.getBytes(UTF_8));
      for (Offer offer : offers) {
        digest.update(offer.visits().toString().getBytes(UTF_8));
      }
      return HexFormat.of().formatHex(digest.digest()).substring(0, LENGTH);
    } catch (NoSuchAlgorithmException impossible) {
      throw new IllegalStateException("Every Java platform has SHA-256.", impossible);
    }
  }
}
