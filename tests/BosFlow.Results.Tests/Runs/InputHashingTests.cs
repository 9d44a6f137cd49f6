using BosFlow.Results.Runs;
using BosFlow.TestKit;

namespace BosFlow.Results.Tests.Runs;

public sealed class InputHashingTests : IDisposable
{
    private readonly TemporaryFolder folder = new();

    public void Dispose() => folder.Dispose();

    // Source of the values: NIST, FIPS 180-4 example messages for SHA-256 ("abc", and one million times "a").
    [Fact]
    public void Hash_PublishedExamples_GiveTheirDigests()
    {
        File.WriteAllText(folder.PathOf("abc"), "abc");
        File.WriteAllText(folder.PathOf("million"), new string('a', 1_000_000));

        IReadOnlyList<RunInput> inputs = InputHashing.Hash("footage", [folder.PathOf("abc"), folder.PathOf("million")], CancellationToken.None);

        Assert.Equal(new RunInput("footage", "abc", 3, "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"), inputs[0]);
        Assert.Equal("cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0", inputs[1].Sha256);
    }

    [Fact]
    public void Hash_MissingFile_IsNamed() =>
        Assert.Contains("gone.png", Assert.Throws<InputDataException>(() => InputHashing.Hash("footage", [folder.PathOf("gone.png")], CancellationToken.None)).Message, StringComparison.Ordinal);
}
