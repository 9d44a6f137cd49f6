using System.Text.Json;

namespace BosFlow.Results.Boards;

/// <summary>A value in a description with the keys that lead to it, so that every complaint says where.</summary>
/// <param name="File">The description.</param>
/// <param name="Key">Keys from the top, joined by points; empty at the top.</param>
/// <param name="Value">The value.</param>
internal readonly record struct BoardFilePlace(string File, string Key, JsonElement Value)
{
    public BoardFilePlace Object(string key)
    {
        BoardFilePlace place = Of(key);
        return place.Value.ValueKind == JsonValueKind.Object ? place : throw place.Fault("must be an object in braces");
    }

    public BoardFilePlace? ObjectOrNull(string key) => Of(key).Value.ValueKind == JsonValueKind.Null ? null : Object(key);

    public IReadOnlyList<BoardFilePlace> Items(string key, int most)
    {
        BoardFilePlace place = Of(key);
        if (place.Value.ValueKind != JsonValueKind.Array || place.Value.GetArrayLength() > most)
            throw place.Fault(FormattableString.Invariant($"must be a list of at most {most}"));
        var items = new List<BoardFilePlace>();
        foreach (JsonElement item in place.Value.EnumerateArray())
            items.Add(new BoardFilePlace(place.File, FormattableString.Invariant($"{place.Key}[{items.Count}]"), item));
        BoardFilePlace? other = items.Where(item => item.Value.ValueKind != JsonValueKind.Object).Select(item => (BoardFilePlace?)item).FirstOrDefault();
        return other is { } wrong ? throw wrong.Fault("must be an object in braces") : items;
    }

    public string Text(string key, int longest)
    {
        BoardFilePlace place = Of(key);
        string? text = place.Value.ValueKind == JsonValueKind.String ? TextOf(place) : null;
        return text is { Length: > 0 } && text.Length <= longest && !text.Any(char.IsControl) ? text
            : throw place.Fault(FormattableString.Invariant($"must be a text of 1 to {longest} letters in quotes"));
    }

    public bool Boolean(string key)
    {
        BoardFilePlace place = Of(key);
        return place.Value.ValueKind is JsonValueKind.True or JsonValueKind.False ? place.Value.GetBoolean() : throw place.Fault("must be true or false");
    }

    public ulong Seed(string key)
    {
        BoardFilePlace place = Of(key);
        return place.Value.ValueKind == JsonValueKind.Number && place.Value.TryGetUInt64(out ulong seed) ? seed
            : throw place.Fault("must be a whole number from 0 to 18446744073709551615");
    }

    public int Integer(string key, int from, int to)
    {
        BoardFilePlace place = Of(key);
        return place.Value.ValueKind == JsonValueKind.Number && place.Value.TryGetInt32(out int value) && value >= from && value <= to ? value
            : throw place.Fault(FormattableString.Invariant($"must be a whole number from {from} to {to}"));
    }

    public double Number(string key, double from, double to)
    {
        BoardFilePlace place = Of(key);
        return place.Value.ValueKind == JsonValueKind.Number && place.Value.TryGetDouble(out double value) && value >= from && value <= to ? value
            : throw place.Fault(FormattableString.Invariant($"must be a number from {from} to {to}"));
    }

    /// <summary>A length that the file gives in mm, m.</summary>
    /// <param name="key">Its key.</param>
    /// <param name="from">Smallest, mm.</param>
    /// <param name="to">Largest, mm.</param>
    public double Metres(string key, double from, double to)
    {
        BoardFilePlace place = Of(key);
        return place.Value.ValueKind == JsonValueKind.Number && place.Value.TryGetDecimal(out decimal value) && value >= (decimal)from && value <= (decimal)to
            ? BoardFileMillimetres.ToMetres(value)
            : throw place.Fault(FormattableString.Invariant($"must be a number of mm from {from} to {to}"));
    }

    public double? MetresOrNull(string key, double from, double to) => Of(key).Value.ValueKind == JsonValueKind.Null ? null : Metres(key, from, to);

    public InputDataException Fault(string what) =>
        new(Key.Length == 0 ? $"{File} {what}; write the description again with bosflow print." : $"{File}: {Key} {what}; write the description again with bosflow print.");

    /// <summary>What stands under a key.</summary>
    public BoardFilePlace Of(string key)
    {
        string full = Key.Length == 0 ? key : $"{Key}.{key}";
        return Value.TryGetProperty(key, out JsonElement value) ? new BoardFilePlace(File, full, value)
            : throw new InputDataException($"{File}: the key {full} is missing; write the description again with bosflow print.");
    }

    // Escapes that form no letter are only found when the text is asked for.
    private static string? TextOf(BoardFilePlace place)
    {
        try
        {
            return place.Value.GetString();
        }
        catch (InvalidOperationException)
        {
            throw place.Fault("is no readable text");
        }
    }
}
