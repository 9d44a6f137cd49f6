namespace BosFlow.Results.NetCdf;

/// <summary>What a content must fulfil before it can become a file.</summary>
internal static class ContentRules
{
    private static readonly string[] OwnAttributes = ["units", "long_name", "_FillValue", "CLASS", "NAME", "DIMENSION_LIST"];

    /// <summary>The coordinate of each dimension, in the order of the content.</summary>
    public static List<NetCdfVariable> Coordinates(NetCdfContent content) =>
        [.. content.Variables.Where(v => v.Dimensions is [var only] && only == v.Name)];

    public static void Check(NetCdfContent content)
    {
        HashSet<string> names = [];
        Dictionary<string, int> lengths = Coordinates(content).ToDictionary(v => v.Name, v => v.Data.Length);
        foreach (NetCdfVariable variable in content.Variables)
        {
            if (!names.Add(variable.Name))
                throw new ArgumentException($"The variable {variable.Name} is given twice.", nameof(content));
            Check(variable, lengths);
        }

        CheckAttributes(content.Attributes, [NetCdfFile.ConventionsName, NetCdfFile.DigestName]);
    }

    private static void Check(NetCdfVariable variable, Dictionary<string, int> lengths)
    {
        if (variable.Name.Length == 0 || !variable.Name.All(c => char.IsAsciiLetterOrDigit(c) || c == '_'))
            throw new ArgumentException($"\"{variable.Name}\" is no name for a variable: letters, digits and underscores only.", nameof(variable));
        long expected = 1;
        foreach (string dimension in variable.Dimensions)
        {
            if (!lengths.TryGetValue(dimension, out int length))
                throw new ArgumentException($"The dimension {dimension} of {variable.Name} has no coordinate variable.", nameof(variable));
            expected = checked(expected * length);
        }

        if (variable.Data is not (float[] or double[] or int[] or byte[]))
            throw new ArgumentException($"{variable.Name} holds values of type {variable.Data.GetType().Name}.", nameof(variable));
        if (variable.Data.Length != expected || expected == 0)
            throw new ArgumentException($"{variable.Name} holds {variable.Data.Length} values where its dimensions need {expected}, at least 1.", nameof(variable));
        CheckAttributes(variable.Attributes, OwnAttributes);
    }

    private static void CheckAttributes(IReadOnlyList<NetCdfAttribute> attributes, string[] reserved)
    {
        HashSet<string> names = [.. reserved];
        foreach (NetCdfAttribute attribute in attributes)
        {
            if (attribute.Name.Length == 0 || !names.Add(attribute.Name))
                throw new ArgumentException($"The attribute name \"{attribute.Name}\" is empty, reserved or given twice.", nameof(attributes));
            if (attribute.Value is Array { Length: 0 })
                throw new ArgumentException($"The attribute {attribute.Name} is an empty list.", nameof(attributes));
        }
    }
}
