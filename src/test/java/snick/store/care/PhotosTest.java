package snick.store.care;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.Arrays;
import java.util.Optional;
import java.util.OptionalDouble;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snick.journal.Blade;
import snick.journal.Finding;
import snick.journal.Inspection;
import snick.journal.Inspection.Look;
import snick.journal.Method;
import snick.journal.Photo;
import snick.journal.Session;
import snick.journal.Session.Equipment;
import snick.journal.Side;
import snick.phrase.NotAccepted;
import snick.store.Store;
import snick.store.StoreReader;
import snick.store.database.Watch;

class PhotosTest {
  private static final Instant NOON = Instant.parse("2026-05-04T12:00:00Z");

  /** The three bytes of ITU-T T.81 (SOI and the next marker) are all that is looked at here. */
  private static final byte[] JPEG = {(byte) 0xFF, (byte) 0xD8, (byte) 0xFF, 'a', 'b', 'c'};

  @TempDir Path temporary;
  private Path directory;
  private Photo photo;

  @BeforeEach
  void fill() {
    directory = temporary.resolve("store");
    try (Store store = Store.open(directory, Clock.fixed(NOON, ZoneOffset.UTC))) {
      photo = store.photos().keep(JPEG);
      store.journal().add(blade());
      store.journal().open(session());
      store.journal().begin("evening", "as found");
      store
          .journal()
          .add(
              "evening",
              new Inspection(
                      NOON,
                      "as found",
                      new Look(Method.RAKING_LIGHT, OptionalDouble.empty()),
                      Side.LEFT,
                      Optional.empty(),
                      Finding.BURR_SEEN,
                      "")
                  .with(Optional.of(photo)));
    }
  }

  private static Blade blade() {
    OptionalDouble none = OptionalDouble.empty();
    return new Blade("kitchen-1", "", none, none, none, none, none, "");
  }

  private static Session session() {
    return new Session(
        "evening",
        "kitchen-1",
        new Equipment(Optional.empty(), Optional.empty(), Optional.empty()),
        OptionalDouble.empty(),
        Optional.empty(),
        NOON,
        Optional.empty());
  }

  private Path file() {
    return directory.resolve("photos").resolve(photo.name());
  }

  /** The digest is that of {@code printf '\xff\xd8\xffabc' | sha256sum}. */
  @Test
  void liesInAFileNamedByItsDigest() throws IOException {
    assertThat(Files.readAllBytes(file())).isEqualTo(JPEG);
    assertThat(photo.name())
        .isEqualTo("bb50305eeb037e9f042bb96a4b894d570a7cdb7735d1599c80bc470943138a08.jpg");
    try (StoreReader store = StoreReader.open(directory)) {
      assertThat(store.photos().read(photo)).contains(JPEG);
      assertThat(store.journal().log("evening").orElseThrow().inspections().get(0).photo())
          .contains(photo);
    }
  }

  @Test
  void whatIsNoPictureOrTooLargeIsRefused() {
    Photos photos = Photos.in(directory);
    assertThatThrownBy(
            () -> photos.keep("<svg/>".getBytes(java.nio.charset.StandardCharsets.UTF_8)))
        .isInstanceOf(NotAccepted.class)
        .hasMessageContaining("no JPEG or PNG");
    assertThatThrownBy(() -> photos.keep(Arrays.copyOf(JPEG, Photo.MOST_BYTES + 1)))
        .isInstanceOf(NotAccepted.class)
        .hasMessageContaining("over 20 MB");
  }

  @Test
  void aMissingOrChangedOneIsNamed() throws IOException {
    Files.write(file(), new byte[] {(byte) 0xFF, (byte) 0xD8, (byte) 0xFF, 'x'});
    try (StoreReader store = StoreReader.open(directory)) {
      assertThat(store.photos().read(photo)).isEmpty();
      assertThat(store.verify(Watch.NONE).problems())
          .singleElement()
          .asString()
          .contains(photo.name(), "is not what was kept");
      Files.delete(file());
      assertThat(store.verify(Watch.NONE).problems())
          .singleElement()
          .asString()
          .contains(photo.name(), "is missing");
    }
  }

  @Test
  void comesBackFromABackupAndFromSalvage() throws IOException {
    Path backup = temporary.resolve("copy.db");
    assertThat(StoreReader.backUp(directory, backup, Watch.NONE)).isEmpty();
    Path restored = temporary.resolve("restored");
    assertThat(Store.restore(backup, restored, Watch.NONE)).isEmpty();
    Path saved = temporary.resolve("saved");
    assertThat(Store.salvage(directory, saved).lost()).isEmpty();
    for (Path copy : new Path[] {restored, saved}) {
      assertThat(Photos.in(copy).read(photo)).contains(JPEG);
    }
  }

  @Test
  void whatIsMissingIsSaidByBackupAndSalvage() throws IOException {
    Files.delete(file());
    assertThat(StoreReader.backUp(directory, temporary.resolve("copy.db"), Watch.NONE))
        .singleElement()
        .asString()
        .contains("is missing");
    assertThat(Store.salvage(directory, temporary.resolve("saved")).lost())
        .singleElement()
        .asString()
        .contains("is missing");
  }
}
