"""Everything she records, kept on this device: clients, photos, bundles and backups."""
