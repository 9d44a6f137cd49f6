using System.Text.Json.Nodes;
using BosFlow.Cli.CaseFile.Toml;
using BosFlow.Cli.CommandLine;

namespace BosFlow.Cli.CaseFile.Keys;

/// <summary>A key with one of a few words.</summary>
/// <typeparam name="T">What the words stand for.</typeparam>
internal sealed class ChoiceKey<T> : TypedCaseKey<T>
    where T : notnull
{
    /// <summary>The words and what they stand for.</summary>
    public required IReadOnlyList<(string Word, T Value)> Choices { get; init; }

    /// <summary>Words that are understood but refused, each with the sentence that says why.</summary>
    public IReadOnlyList<(string Word, string Sentence)> Refused { get; init; } = [];

    /// <inheritdoc/>
    public override string Kind => "one of a few words";

    /// <inheritdoc/>
    public override string Allowed
    {
        get
        {
            string[] words = [.. Choices.Select(choice => TomlLiteral.Of(choice.Word))];
            return words.Length == 1 ? words[0] : string.Join(", ", words[..^1]) + " or " + words[^1];
        }
    }

    /// <inheritdoc/>
    public override JsonObject Schema() => new()
    {
        ["type"] = "string",
        ["enum"] = new JsonArray([.. Choices.Select(choice => JsonValue.Create(choice.Word))]),
    };

    /// <inheritdoc/>
    protected override string? TryRead(TomlNode node, out T? value)
    {
        value = default;
        if (node.Value is not string word)
            return WrongKind(node);
        foreach ((string refused, string sentence) in Refused)
        {
            if (refused == word)
                return sentence;
        }

        foreach ((string known, T meaning) in Choices)
        {
            if (known != word)
                continue;
            value = meaning;
            return null;
        }

        string? near = NearestWord.Find(word, Choices.Select(choice => choice.Word));
        return near is null ? $"is not known; give {Allowed}." : $"is not known; did you mean {TomlLiteral.Of(near)}? Allowed: {Allowed}.";
    }
}
